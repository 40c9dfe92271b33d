import { loadText, nameProblem, saveText } from '@kerfbook/document';
import { documentOf } from '@kerfbook/document/testing';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shopTableEdit } from '../book/shop-tables.ts';
import { bookOf, place, shows, type } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';

const NAMES = [
  'ширина',
  '板の厚さ',
  'größe',
  'Épaisseur',
  'लंबाई',
  'عرض',
  'offset_length',
  'OFFSET',
  'İç',
  'ﬁnish',
  'kerfbook_1',
  '_2',
  'a.b',
  'x٣',
  'ʰ',
  '𝒙',
].filter((name) => name !== 'OFFSET');

function reopened(book: Workbook): Workbook {
  const loaded = loadText(saveText(book.document()));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

function named(name: string): Workbook {
  const book = bookOf({
    sheets: { Base: [[21, null, null], [null]] },
    checks: [
      { id: 'k1', name: 'low', formula: '=1>2', severity: 'care', says: `It is {${name}}.` },
    ],
  });
  const result = book.apply({ do: 'nameCell', at: place(book, 'A1'), name });
  expect(result).toMatchObject({ ok: true });
  return book;
}

/** A name works in formulas, checks and explanations, and when the workbook is opened again. */
function works(name: string): void {
  const book = named(name);
  type(book, 'B1', `=${name}*2`);
  type(
    book,
    'C1',
    `=SUM(${name},${name.toUpperCase().toLowerCase() === name ? name.toUpperCase() : name})`,
  );
  for (const one of [book, reopened(book)]) {
    expect(shows(one, 'B1')).toBe('42');
    expect(shows(one, 'C1')).toBe('42');
    expect(one.cell(place(one, 'B1')).entry).toBe(`=${name}*2`);
    expect(one.checks()[0]?.says).toBe('It is 21.');
    expect(one.explain(place(one, 'B1'))).toMatchObject({
      uses: [{ label: name.normalize('NFC') }],
      withNumbers: '=21*2',
    });
    expect(one.usedBy(place(one, 'A1'))).toHaveLength(2);
  }
  expect(book.apply({ do: 'renameName', from: name, to: 'plain_name' })).toMatchObject({
    ok: true,
  });
  expect(book.cell(place(book, 'B1')).entry).toBe('=plain_name*2');
  expect(book.checks()[0]?.says).toBe('It is 21.');
  expect(shows(book, 'C1')).toBe('42');
  book.undo();
  expect(shows(book, 'C1')).toBe('42');
  expect(book.cell(place(book, 'B1')).entry).toBe(`=${name}*2`);
}

describe('names of any script', () => {
  it.each(NAMES)('S7 %s works in formulas, checks and explanations', works);

  it('S7 so does any name that is accepted', () => {
    const name = fc
      .stringMatching(/^[\p{L}_][\p{L}\p{M}\p{Nd}_.]{0,7}$/u)
      .filter((one) => nameProblem(one.normalize('NFC')) === undefined);
    fc.assert(fc.property(name, works), { numRuns: 60 });
  });

  it('S7 a name is one however its capitals and accents are written', () => {
    const book = named('Épaisseur');
    type(book, 'B1', '=e\u0301paisseur*2');
    expect(shows(book, 'B1')).toBe('42');
    expect(
      book.apply({ do: 'nameCell', at: place(book, 'A2'), name: 'E\u0301PAISSEUR' }),
    ).toMatchObject({ ok: false, code: 'W3' });
    expect(book.apply({ do: 'nameCell', at: place(book, 'A1'), name: null })).toMatchObject({
      ok: false,
      code: 'W4',
    });
    expect(book.named('E\u0301paisseur')?.address).toBe('A1');
  });

  it('S7 an unknown word is told as the maker wrote it, and heals when it is named', () => {
    const book = bookOf({ sheets: { Base: [[21]] } });
    type(book, 'B1', '=Ширина*2');
    type(book, 'C1', '=Ширина(2)');
    type(book, 'D1', '=offset_length');
    const says = (address: string) => book.value(place(book, address));
    expect(says('B1')).toMatchObject({
      error: { word: '#NAME?', says: expect.stringContaining('no cell called Ширина.') },
    });
    expect(says('C1')).toMatchObject({
      error: { says: expect.stringContaining('no function called Ширина.') },
    });
    expect(says('D1')).toMatchObject({
      error: { says: expect.stringContaining('no cell called offset_length.') },
    });
    book.apply({ do: 'nameCell', at: place(book, 'A1'), name: 'ширина' });
    expect(shows(book, 'B1')).toBe('42');
    type(book, 'B2', '=ширна');
    expect(says('B2')).toMatchObject({ error: { says: expect.stringContaining('mean ширина?') } });
  });

  it('S1 what is refused comes with an offer that is accepted, and is free', () => {
    const book = named('area_ft2');
    const at = place(book, 'A2');
    const refused = (name: string) => book.apply({ do: 'nameCell', at, name });
    expect(refused('area_ft²')).toMatchObject({
      code: 'W10',
      says: expect.stringContaining('area_ft2_2 would do.'),
    });
    expect(refused('m³')).toMatchObject({ says: expect.stringContaining('m_3 would do.') });
    expect(refused('area_ft2_2')).toMatchObject({ ok: true });
    expect(book.apply({ do: 'renameName', from: 'area_ft2_2', to: 'x²' })).toMatchObject({
      code: 'W10',
    });
  });

  it('S8 a workbook that holds a name of before opens, works and is edited', () => {
    const document = documentOf({
      sheets: {
        Base: [[{ value: 4, name: 'area_ft²' }, '=area_ft²*2'], [{ value: 1, name: 'sum' }]],
      },
    });
    const loaded = loadText(saveText(document));
    if (!loaded.ok) throw new Error(loaded.says);
    const book = Workbook.open(loaded.document);
    expect(shows(book, 'B1')).toBe('8');
    const before = book.document();
    expect(book.apply({ do: 'deleteRows', sheet: 's1', at: 0, count: 1 })).toMatchObject({
      ok: true,
    });
    book.undo();
    expect(book.document()).toEqual(before);
    expect(shows(reopened(book), 'B1')).toBe('8');
    expect(book.apply({ do: 'renameName', from: 'area_ft²', to: 'area' })).toMatchObject({
      ok: true,
    });
    expect(book.cell(place(book, 'B1')).entry).toBe('=area*2');
    expect(book.undo()).toMatchObject({ ok: true });
    expect(shows(book, 'B1')).toBe('8');
  });

  it('S8 a file whose name no workbook can hold is refused, and the sentence names it', () => {
    for (const name of ['A1', 'TRUE', 'r1c1', 'two words', '']) {
      const document = documentOf({ sheets: { Base: [[{ value: 4, name }]] } });
      expect(loadText(JSON.stringify(document))).toMatchObject({
        ok: false,
        says: expect.stringContaining(`the name "${name}" will not do`),
      });
    }
  });
});

describe('a formula’s text in a cell', () => {
  it('S7 F2 reads as the maker wrote it, whatever the engine was told', () => {
    const book = named('ширина');
    type(book, 'B1', '="a""b"&ширина&TRUE');
    type(book, 'B2', '=FORMULATEXT(B1)');
    type(book, 'C2', '=FORMULATEXT(A1)');
    type(book, 'C1', '=1+(2');
    type(book, 'D2', '=FORMULATEXT(C1)');
    for (const one of [book, reopened(book)]) {
      expect(shows(one, 'B2')).toBe('="a""b"&ширина&TRUE');
      expect(shows(one, 'C2')).toBe('#N/A');
      expect(shows(one, 'D2')).toBe('=1+(2');
    }
    book.apply({ do: 'renameName', from: 'ширина', to: 'größe' });
    expect(shows(book, 'B2')).toBe('="a""b"&größe&TRUE');
    book.apply({ do: 'insertRows', sheet: 's1', at: 0, rows: [{ id: 'rx' }] });
    expect(shows(book, 'B3')).toBe('="a""b"&größe&TRUE');
    type(book, 'C1', '=A2');
    type(book, 'D1', '=FORMULATEXT(C1)');
    expect(shows(book, 'D1')).toBe('=A2');
    book.apply({ do: 'insertRows', sheet: 's1', at: 1, rows: [{ id: 'ry' }] });
    expect(shows(book, 'D1')).toBe('=A3');
    expect(shows(reopened(book), 'D1')).toBe('=A3');
  });

  it('V1 an error counts the letters of what the maker wrote', () => {
    const book = named('ширина');
    type(book, 'B1', '="a""b"&ширина)');
    for (const one of [book, reopened(book)]) {
      expect(one.value(place(one, 'B1'))).toMatchObject({
        error: { says: expect.stringContaining('The ) at character 15 closes nothing') },
      });
    }
  });
});

describe('texts that show cells by name', () => {
  it('S9 renaming rewrites the texts of steps and what is said of the whole by name', () => {
    const book = bookOf({ sheets: { A: [[{ value: 3, name: 'rail' }]] } });
    const begin = shopTableEdit(book, 'steps');
    if (begin === undefined) throw new Error('there is a table already');
    book.apply(begin);
    const [table] = book.tables();
    const { sheet = '', header = 0 } = table ?? {};
    const text = 'Cut {Rail}, not {rails}, {rail} long.';
    book.apply({ do: 'enter', sheet, cells: [{ row: header + 1, column: 1, text }] });
    book.apply({ do: 'setBook', set: { results: ['rail'], guide: { inputs: ['RAIL'] } } });
    const before = saveText(book.document());
    book.apply({ do: 'renameName', from: 'rail', to: 'rail_w' });
    expect(book.cell({ sheet, row: header + 1, column: 1 }).shown.text).toBe(
      'Cut {rail_w}, not {rails}, {rail_w} long.',
    );
    expect(book.head).toMatchObject({ results: ['rail_w'], guide: { inputs: ['rail_w'] } });
    book.undo();
    expect(saveText(book.document())).toBe(before);
  });

  it('S9 names that steps, studies and variants list follow, and words that only look alike stay', () => {
    const book = bookOf({ sheets: { A: [[{ value: 3, name: 'rail' }]] } });
    const rows = {
      steps: ['Cut the rails', '', '', '', 'rail, stile'],
      studies: ['rail', 'table', 'rail 3..9/1; wood rail', 'price, Rail', 'rail 4'],
      variants: ['rail', '7'],
    };
    const places = Object.entries(rows).map(([kind, texts]) => {
      const begin = shopTableEdit(book, kind as 'steps');
      if (begin === undefined) throw new Error('there is a table already');
      book.apply(begin);
      const { sheet = '', header = 0 } = book.tables().find((one) => one.kind === kind) ?? {};
      const cells = texts.map((text, column) => ({ row: header + 1, column, text }));
      if (kind === 'variants') cells.push({ row: header, column: 1, text: 'Rail' });
      book.apply({ do: 'enter', sheet, cells });
      return { sheet, header };
    });
    book.apply({ do: 'renameName', from: 'rail', to: 'rail_w' });
    const [steps, studies, variants] = places.map(({ sheet, header }) =>
      [0, 1, 2, 3, 4]
        .map((column) => book.cell({ sheet, row: header + 1, column }).shown.text)
        .concat(book.cell({ sheet, row: header, column: 1 }).shown.text),
    );
    expect(steps?.[4]).toBe('rail_w, stile');
    expect(studies?.slice(0, 5)).toEqual([
      'rail',
      'table',
      'rail_w 3..9/1; wood rail',
      'price, rail_w',
      'rail_w 4',
    ]);
    expect([variants?.[0], variants?.[5]]).toEqual(['rail', 'rail_w']);
  });
});
