import type { Edit } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { functionNote } from '../reference/pages.ts';
import { bookOf, place, shows, type } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';

const table = () =>
  bookOf({
    sheets: {
      Brief: [
        ['Length', { value: 84, quantity: 'length', role: 'input', name: 'top_length' }],
        ['Overhang', { value: 6, quantity: 'length', role: 'input', name: 'overhang' }],
        [
          'Apron',
          {
            formula: '=top_length-2*overhang',
            quantity: 'length',
            role: 'calculated',
            name: 'apron',
          },
        ],
      ],
      Cuts: [[1], [2], [3], ['=SUM([c1.r1]:[c1.r3])'], ['=[s1!c2.r3]*2']],
    },
  });

const done = (book: Workbook, edit: Edit) => {
  const result = book.apply(edit);
  if (!result.ok) throw new Error(result.says);
  return result;
};

const refused = (book: Workbook, edit: Edit, code: string): string => {
  const before = structuredClone(book.document());
  const result = book.apply(edit);
  expect(result).toMatchObject({ ok: false, code });
  expect(book.document()).toEqual(before);
  return result.ok ? '' : result.says;
};

/** Applies, checks, undoes and redoes, comparing whole documents. */
const thereAndBack = (book: Workbook, edit: Edit): void => {
  const before = structuredClone(book.document());
  done(book, edit);
  const after = structuredClone(book.document());
  book.undo();
  expect(book.document()).toEqual(before);
  book.redo();
  expect(book.document()).toEqual(after);
};

describe('typing into cells', () => {
  it('N1 reads an entry by the quantity of its cell', () => {
    const book = table();
    type(book, 'Brief!B1', `8'`);
    expect(book.value(place(book, 'Brief!B1'))).toEqual({ kind: 'number', number: 96 });
    expect(shows(book, 'Brief!B3')).toBe('84');
  });

  it('N2 shows what was typed again in the editor', () => {
    const book = table();
    type(book, 'Brief!B1', `5' 6-3/8"`);
    expect(book.cell(place(book, 'Brief!B1'))).toMatchObject({
      entry: `5' 6-3/8"`,
      value: { number: 66.375 },
    });
  });

  it('N3 formulas are in the own units of the workbook', () => {
    const book = bookOf({
      units: 'metric',
      sheets: { A: [[{ quantity: 'length' }, '=[c1.r1]+1']] },
    });
    type(book, 'A1', '1.2 m');
    expect(book.value(place(book, 'B1'))).toEqual({ kind: 'number', number: 1201 });
  });

  it('N1 grows the sheet for a place and for a reference beyond its edge, as one step', () => {
    const book = table();
    const before = structuredClone(book.document());
    type(book, 'Cuts!C9', '=Cuts!D12+1');
    expect(book.sheet('s2')).toMatchObject({ rows: 12, columns: 4 });
    expect(shows(book, 'Cuts!C9')).toBe('1');
    book.undo();
    expect(book.document()).toEqual(before);
  });

  it('N4 keeps an entry that cannot be read, with a sentence, and dependents lead back to it', () => {
    const book = table();
    type(book, 'Brief!B1', 'eight feet or so');
    const cell = book.cell(place(book, 'Brief!B1'));
    expect(cell.entry).toBe('eight feet or so');
    expect(cell.problem?.says).toContain('eight feet or so');
    const apron = book.value(place(book, 'Brief!B3'));
    expect(apron).toMatchObject({ kind: 'error', error: { word: '#VALUE!' } });
    expect(book.problems().map((problem) => problem.address)).toEqual([
      'Brief!B1',
      'Brief!B3',
      'Cuts!A5',
    ]);
  });

  it('N4 keeps an entry that the cell does not allow and says what it takes', () => {
    const book = table();
    done(book, {
      do: 'describeCells',
      sheet: 's1',
      cells: [{ row: 0, column: 1, traits: { allow: { min: 12, max: 240 } } }],
    });
    type(book, 'Brief!B1', '-84');
    const cell = book.cell(place(book, 'Brief!B1'));
    expect(cell.shown.text).toBe('-84');
    expect(cell.problem?.says).toMatch(/12.*240/);
    // Nothing goes on computing with what was refused: until now -84 did.
    expect(book.value(place(book, 'Brief!B3'))).toMatchObject({
      kind: 'error',
      error: { word: '#VALUE!', from: place(book, 'Brief!B1') },
    });
  });

  it('N4 leaves no refused entry out of a sum without a word', () => {
    const book = bookOf({
      sheets: {
        A: [
          [{ quantity: 'length', value: 2 }, { quantity: 'percent' }],
          [{ quantity: 'length' }, '=SUM([c1.r1]:[c1.r2])'],
          [{ value: 5, allow: { list: ['5', '6'] } }, '=[c1.r3]+[c2.r1]'],
        ],
      },
    });
    for (const [at, text, problem] of [
      ['A2', '12 inxes', 'Q1'],
      ['A2', '1,5', 'Q4'],
      ['A3', '7', 'Q0'],
      ['B1', '.3', 'Q11'],
    ] as const) {
      type(book, at, text);
      const cell = book.cell(place(book, at));
      expect(cell.problem?.code).toBe(problem);
      expect(cell.shown.text).toBe(text);
      const user = at === 'A2' ? 'B2' : 'B3';
      expect(book.value(place(book, user))).toMatchObject({
        kind: 'error',
        error: { from: place(book, at) },
      });
      book.undo();
    }
    expect(shows(book, 'B2')).toBe('2');
  });

  it('N6 asks whether a share was meant for a percentage, and takes what says its unit', () => {
    const percent = { quantity: 'percent' } as const;
    const book = bookOf({ sheets: { A: [[percent, percent, {}, { ...percent, value: 0.3 }]] } });
    type(book, 'A1', '.3');
    expect(book.cell(place(book, 'A1')).problem?.says).toBe(
      'Is this 0.3 % or 30 %? Type 0.3% or 30.',
    );
    for (const [text, number] of [
      ['0.3%', 0.3],
      ['30', 30],
      ['30%', 30],
      ['0', 0],
      ['1', 1],
    ] as const) {
      type(book, 'B1', text);
      expect(book.cell(place(book, 'B1'))).toMatchObject({ entry: text, value: { number } });
      expect(book.cell(place(book, 'B1')).problem).toBeUndefined();
    }
    // A plain cell becomes a percent cell and shows it.
    type(book, 'C1', '15%');
    expect(book.cell(place(book, 'C1'))).toMatchObject({
      quantity: 'percent',
      unit: '%',
      value: { number: 15 },
      entry: '15%',
    });
    // In a file nobody can be asked how it was typed.
    expect(book.problems().map(({ address }) => address)).toEqual(['A!A1', 'A!D1']);
    type(book, 'C1', '0.5%');
    expect(book.cell(place(book, 'C1')).problem).toBeUndefined();
  });

  it('N5 an empty entry clears the cell and keeps what is said of it', () => {
    const book = table();
    type(book, 'Brief!B1', '');
    expect(book.cell(place(book, 'Brief!B1'))).toMatchObject({
      value: { kind: 'empty' },
      quantity: 'length',
      name: 'top_length',
    });
  });

  it('F6 keeps a formula with a typing mistake as typed', () => {
    const book = table();
    type(book, 'Cuts!B1', '=SUM(A1,');
    const cell = book.cell(place(book, 'Cuts!B1'));
    expect(cell.entry).toBe('=SUM(A1,');
    expect(cell.value).toMatchObject({ kind: 'error', error: { word: '#ERROR!' } });
  });

  it('E1 refuses a place that no sheet has', () => {
    const book = table();
    const cells = [{ row: 10_000, column: 0, text: '1' }];
    expect(refused(book, { do: 'enter', sheet: 's1', cells }, 'W2')).toContain('10000 rows');
    refused(book, { do: 'enter', sheet: 'nowhere', cells }, 'W1');
    refused(
      book,
      { do: 'setCells', sheet: 's1', cells: [{ row: -1, column: 0, cell: null }] },
      'W9',
    );
  });

  it('C1 reports each changed cell once and no other', () => {
    const book = table();
    const { changed } = type(book, 'Brief!B1', '96');
    const found = changed.map((at) => `${at.sheet} ${book.addressOf(at)}`).sort();
    expect(found).toEqual(['s1 B1', 's1 B3', 's2 A5']);
  });

  it('C1 reports a cell whose entry changed although its value did not', () => {
    const book = table();
    const { changed } = type(book, 'Brief!B1', `7'`);
    expect(changed.map((at) => book.addressOf(at))).toEqual(['B1']);
  });
});

describe('overrides', () => {
  it('O1 keeps the formula under a typed value, and dependents follow the value', () => {
    const book = table();
    type(book, 'Brief!B3', '70');
    expect(book.cell(place(book, 'Brief!B3'))).toMatchObject({
      override: { typed: '70' },
      formula: '=top_length-2*overhang',
      value: { number: 70 },
    });
    expect(shows(book, 'Cuts!A5')).toBe('140');
    type(book, 'Brief!B1', '96');
    expect(shows(book, 'Brief!B3')).toBe('70');
  });

  it('O2 restoring the formula brings its result back', () => {
    const book = table();
    type(book, 'Brief!B3', '70');
    const cells = [{ row: 2, column: 1 }];
    thereAndBack(book, { do: 'restore', sheet: 's1', cells });
    expect(shows(book, 'Brief!B3')).toBe('72');
    refused(book, { do: 'restore', sheet: 's1', cells }, 'W11');
  });

  it('O3 clearing restores the formula, and a formula typed over replaces both', () => {
    const book = table();
    type(book, 'Brief!B3', '70');
    done(book, { do: 'clear', sheet: 's1', cells: [{ row: 2, column: 1 }] });
    expect(shows(book, 'Brief!B3')).toBe('72');
    type(book, 'Brief!B3', '70');
    type(book, 'Brief!B3', '=top_length-1');
    expect(book.cell(place(book, 'Brief!B3')).override).toBeUndefined();
    expect(shows(book, 'Brief!B3')).toBe('83');
  });
});

describe('structure', () => {
  it('F1 F3 an insert elsewhere changes no kept formula, and shown addresses follow', () => {
    const book = table();
    const kept = book.document().sheets[1]?.rows[3]?.cells?.c1?.formula;
    done(book, { do: 'insertRows', sheet: 's2', at: 0, rows: [{ id: 'rx' }] });
    expect(book.document().sheets[1]?.rows[4]?.cells?.c1?.formula).toBe(kept);
    expect(book.cell(place(book, 'Cuts!A5')).entry).toBe('=SUM(A2:A4)');
    expect(shows(book, 'Cuts!A5')).toBe('6');
    expect(book.cell(place(book, 'Cuts!A6')).entry).toBe('=Brief!B3*2');
  });

  it('F3 a range grows by a row inserted inside it', () => {
    const book = table();
    const rows = [{ id: 'rx', cells: { c1: { value: 10 } } }];
    thereAndBack(book, { do: 'insertRows', sheet: 's2', at: 1, rows });
    expect(shows(book, 'Cuts!A5')).toBe('16');
  });

  it('F5 a reference to a deleted row is #REF! and heals on undo', () => {
    const book = table();
    done(book, { do: 'deleteRows', sheet: 's1', at: 2, count: 1 });
    expect(book.cell(place(book, 'Cuts!A5'))).toMatchObject({
      entry: '=#REF!*2',
      shown: { text: '#REF!' },
    });
    book.undo();
    expect(shows(book, 'Cuts!A5')).toBe('144');
  });

  it('S3 a range ends at its nearest remaining row, and undo gives it back', () => {
    const book = table();
    thereAndBack(book, { do: 'deleteRows', sheet: 's2', at: 2, count: 1 });
    expect(book.cell(place(book, 'Cuts!A3')).entry).toBe('=SUM(A1:A2)');
    expect(shows(book, 'Cuts!A3')).toBe('3');
    thereAndBack(book, { do: 'deleteRows', sheet: 's2', at: 0, count: 2 });
    expect(shows(book, 'Cuts!A1')).toBe('#REF!');
  });

  it('S3 columns likewise', () => {
    const book = bookOf({ sheets: { A: [[1, 2, 3, '=SUM([c1.r1]:[c3.r1])']] } });
    thereAndBack(book, { do: 'deleteColumns', sheet: 's1', at: 2, count: 1 });
    expect(book.cell(place(book, 'C1')).entry).toBe('=SUM(A1:B1)');
    thereAndBack(book, { do: 'insertColumns', sheet: 's1', at: 1, columns: [{ id: 'cx' }] });
    expect(book.cell(place(book, 'D1')).entry).toBe('=SUM(A1:C1)');
  });

  it('S3 a table keeps its last remaining row', () => {
    const parts = [['part'], ['top'], ['leg']];
    const book = bookOf({
      sheets: { Parts: parts },
      tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r3' }],
    });
    thereAndBack(book, { do: 'deleteRows', sheet: 's1', at: 2, count: 1 });
    expect(book.tables()).toMatchObject([{ header: 0, last: 1 }]);
    thereAndBack(book, { do: 'deleteRows', sheet: 's1', at: 0, count: 1 });
    expect(book.tables()).toEqual([]);
  });

  it('S4 sheets are added, renamed, moved and removed, and formulas follow', () => {
    const book = table();
    thereAndBack(book, { do: 'renameSheet', sheet: 's1', name: "Bob's brief" });
    expect(book.cell(place(book, 'Cuts!A5')).entry).toBe("='Bob''s brief'!B3*2");
    thereAndBack(book, { do: 'moveSheet', sheet: 's1', to: 1 });
    const sheet = { id: 's9', name: 'More', columns: [{ id: 'c1' }], rows: [] };
    thereAndBack(book, { do: 'addSheet', at: 1, sheet });
    refused(book, { do: 'addSheet', at: 1, sheet: { ...sheet, id: 's10', name: 'cuts' } }, 'W6');
    refused(book, { do: 'renameSheet', sheet: 's1', name: 'a/b' }, 'W6');
    thereAndBack(book, { do: 'removeSheet', sheet: 's1' });
    expect(shows(book, 'Cuts!A5')).toBe('#REF!');
    book.undo();
    expect(shows(book, 'Cuts!A5')).toBe('144');
    done(book, { do: 'removeSheet', sheet: 's2' });
    done(book, { do: 'removeSheet', sheet: 's9' });
    refused(book, { do: 'removeSheet', sheet: 's1' }, 'W7');
  });

  it('E7 sheets are hidden and shown again, calculate meanwhile, and one is always in sight', () => {
    const book = table();
    const hidden = () => book.sheets().map(({ isHidden }) => isHidden);
    const cuts = shows(book, 'Cuts!A5');
    thereAndBack(book, { do: 'hideSheet', sheet: 's1', hidden: true });
    expect(hidden()).toEqual([true, false]);
    expect(shows(book, 'Cuts!A5')).toBe(cuts);
    refused(book, { do: 'hideSheet', sheet: 's2', hidden: true }, 'W30');
    refused(book, { do: 'hideSheet', sheet: 'nowhere', hidden: true }, 'W1');
    thereAndBack(book, { do: 'removeSheet', sheet: 's2' });
    expect(hidden()).toEqual([false]);
    book.undo();
    thereAndBack(book, { do: 'hideSheet', sheet: 's1', hidden: false });
    expect(hidden()).toEqual([false, false]);
  });
});

describe('names', () => {
  it('S1 refuses a name that could be an address and offers another', () => {
    const book = table();
    const at = place(book, 'Cuts!A1');
    expect(refused(book, { do: 'nameCell', at, name: 'Leg1' }, 'W10')).toContain('Leg_1');
    refused(book, { do: 'nameCell', at, name: 'SUM' }, 'W10');
    refused(book, { do: 'nameCell', at, name: 'OVERHANG' }, 'W3');
  });

  it('S1 names a cell so that formulas can use it', () => {
    const book = table();
    const at = place(book, 'Cuts!A1');
    type(book, 'Cuts!B1', '=leg*2');
    expect(shows(book, 'Cuts!B1')).toBe('#NAME?');
    thereAndBack(book, { do: 'nameCell', at, name: 'leg' });
    expect(shows(book, 'Cuts!B1')).toBe('2');
  });

  it('S2 renaming rewrites every formula and check sentence in one step', () => {
    const book = bookOf({
      sheets: { A: [[{ value: 3, name: 'rail' }, '=rail*2', '=rails+rail']] },
      checks: [
        { id: 'k1', name: 'Rail', formula: '=rail>4', severity: 'care', says: '{rail} is short.' },
      ],
    });
    thereAndBack(book, { do: 'renameName', from: 'RAIL', to: 'rail_w' });
    expect(book.cell(place(book, 'B1')).entry).toBe('=rail_w*2');
    expect(book.cell(place(book, 'C1')).entry).toBe('=rails+rail_w');
    expect(book.checks()).toMatchObject([{ state: 'care', says: '3 is short.' }]);
  });

  it('S2 does not take a name away while a formula uses it', () => {
    const book = table();
    const at = place(book, 'Brief!B2');
    expect(refused(book, { do: 'nameCell', at, name: null }, 'W4')).toContain('Brief!B3');
  });
});

describe('edits as values', () => {
  it('E1 several edits are carried out whole or not at all', () => {
    const book = table();
    const edits: Edit[] = [
      { do: 'enter', sheet: 's1', cells: [{ row: 0, column: 1, text: '50' }] },
      { do: 'insertRows', sheet: 's2', at: 1, rows: [{ id: 'rx' }] },
      { do: 'removeSheet', sheet: 'nowhere' },
    ];
    refused(book, { do: 'batch', edits }, 'W1');
    expect(shows(book, 'Brief!B3')).toBe('72');
  });

  it('E2 every inverse restores the document exactly', () => {
    const book = table();
    thereAndBack(book, { do: 'setBook', set: { title: 'Another', about: 'x', author: null } });
    const head = { customer: 'A made-up family', job: '26-014', due: '2026-03-14', revision: 'B' };
    thereAndBack(book, { do: 'setBook', set: { ...head, terms: 'Half now, half on delivery.' } });
    book.apply({ do: 'setBook', set: head });
    thereAndBack(book, { do: 'setBook', set: { customer: null, due: '2026-04-01' } });
    const letterhead = { name: 'A made-up shop', address: 'Mill Lane 4' };
    thereAndBack(book, { do: 'setBook', set: { agreed: '2026-03-01', letterhead } });
    thereAndBack(book, { do: 'setColumn', sheet: 's1', column: 0, width: 200 });
    thereAndBack(book, { do: 'setChecks', checks: [] });
    thereAndBack(book, { do: 'clear', sheet: 's2', cells: [{ row: 0, column: 0 }] });
    const traits = { remark: 'Measured.', role: 'note' as const, quantity: null };
    thereAndBack(book, {
      do: 'describeCells',
      sheet: 's1',
      cells: [{ row: 0, column: 1, traits }],
    });
  });

  it('E4 the engine follows override, formula and value in that order', () => {
    const book = bookOf({
      sheets: { A: [[{ value: 1, formula: '=2', override: { value: 3 } }, '=[c1.r1]']] },
    });
    expect(shows(book, 'B1')).toBe('3');
    done(book, { do: 'restore', sheet: 's1', cells: [{ row: 0, column: 0 }] });
    expect(shows(book, 'B1')).toBe('2');
  });

  it('E5 replaying the log of carried-out edits gives the same document', () => {
    const book = table();
    const copy = table();
    const texts: [string, string][] = [
      ['Cuts!D9', '=Brief!Z3'],
      ['Brief!B1', '12'],
      ['Cuts!A1', '=A2'],
    ];
    for (const [address, text] of texts) done(copy, type(book, address, text).edit);
    expect(copy.document()).toEqual(book.document());
  });
});

describe('undo', () => {
  it('U1 an edit of many cells is one step', () => {
    const book = table();
    const cells = Array.from({ length: 500 }, (_, i) => ({ row: i, column: 3, text: `${i}` }));
    const before = structuredClone(book.document());
    done(book, { do: 'enter', sheet: 's2', cells });
    book.undo();
    expect(book.document()).toEqual(before);
    expect(book.canUndo).toBe(false);
  });

  it('U3 keeps at least 200 steps and forgets undone ones after a new edit', () => {
    const book = table();
    const before = structuredClone(book.document());
    for (let i = 0; i < 250; i += 1) type(book, 'Brief!B1', `${i + 1}`);
    for (let i = 0; i < 250; i += 1) book.undo();
    expect(book.document()).toEqual(before);
    expect(book.canRedo).toBe(true);
    type(book, 'Brief!B1', '9');
    expect(book.canRedo).toBe(false);
  });
});

describe('checks', () => {
  const checked = () =>
    bookOf({
      sheets: {
        A: [
          [
            { value: 2.5, quantity: 'length', name: 'screw' },
            { value: 1.5, quantity: 'length', name: 'apron' },
          ],
        ],
      },
      checks: [
        {
          id: 'k1',
          name: 'The screw stays inside',
          sheet: 's1',
          formula: '=screw<apron',
          severity: 'stop',
          says: 'A {screw} screw would come through: the apron is {apron} thick.',
        },
        { id: 'k2', name: 'Broken', formula: '=nothing>1', severity: 'care', says: 'No.' },
      ],
    });

  it('K1 a failing check says its sentence with numbers as they are shown', () => {
    const book = checked();
    expect(book.checks()[0]).toEqual({
      id: 'k1',
      name: 'The screw stays inside',
      sheet: 's1',
      state: 'stop',
      says: 'A 2 1/2 in screw would come through: the apron is 1 1/2 in thick.',
    });
    const result = type(book, 'A1', '1 1/4');
    expect(result.checks).toEqual(['k1']);
    expect(book.checks()[0]?.state).toBe('pass');
  });

  it('K2 a check in error is unknown, never passed', () => {
    expect(checked().checks()[1]).toMatchObject({ state: 'unknown' });
    expect(checked().checks()[1]?.says).toContain('nothing');
  });

  it('K3 a check by address follows its cell', () => {
    const book = bookOf({
      sheets: { A: [[5]] },
      checks: [
        { id: 'k1', name: 'Small', formula: '=[s1!c1.r1]<9', severity: 'care', says: 'Big.' },
      ],
    });
    done(book, { do: 'insertRows', sheet: 's1', at: 0, rows: [{ id: 'rx' }] });
    type(book, 'A2', '10');
    expect(book.checks()[0]).toMatchObject({ state: 'care', says: 'Big.' });
  });
});

describe('values and explanations', () => {
  it('V1 an error leads to the cell where it began', () => {
    const book = table();
    type(book, 'Brief!B2', '=1/0');
    const value = book.value(place(book, 'Cuts!A5'));
    expect(value).toMatchObject({
      kind: 'error',
      error: { word: '#DIV/0!', from: place(book, 'Brief!B2') },
    });
    expect(value.kind === 'error' && value.error.says).toMatch(/^[A-Z].*\.$/);
  });

  it('V2 hostile formulas are errors with a sentence', () => {
    const book = table();
    for (const text of [
      `=${'('.repeat(200)}1`,
      `=${'1+'.repeat(3000)}1`,
      '=SUM(B1:ZZ10000)',
      '=REPT("x",1E9)',
    ]) {
      type(book, 'Cuts!B2', text);
      const value = book.value(place(book, 'Cuts!B2'));
      expect(value.kind).toBe('error');
    }
    expect(shows(book, 'Brief!B3')).toBe('72');
  });

  it('X1 explains a cell in names, in numbers and down to its inputs', () => {
    const why = table().explain({ sheet: 's2', row: 4, column: 0 });
    expect(why).toMatchObject({ address: 'Cuts!A5', formula: '=Brief!B3*2', withNumbers: '=72*2' });
    expect(why.uses.map((one) => one.label)).toEqual(['apron']);
    expect(why.rests.map((one) => [one.label, one.shown])).toEqual([
      ['top_length', '84'],
      ['overhang', '6'],
    ]);
  });

  it('X1 lists who uses a cell, by its address, by its name and in a range', () => {
    const book = bookOf({
      sheets: {
        Base: [
          [{ value: 84, name: 'top' }, '=A1/2'],
          [2, { formula: '=top*2', name: 'twice' }],
          [3, { formula: '=SUM(A1:A3)', name: 'sum' }],
          [null, { formula: '=SUM(A1:A4)+top', name: 'both' }],
        ],
      },
    });
    const usedBy = (name: string) =>
      book.explain(book.find(name, 's1') ?? { sheet: 's1', row: 0, column: 0 }).usedBy;
    expect(usedBy('top').map(({ label }) => label)).toEqual(['Base!B1', 'twice', 'sum', 'both']);
    expect(usedBy('A2').map(({ label }) => label)).toEqual(['sum', 'both']);
    expect(usedBy('both')).toEqual([]);
  });

  it('X1 names the source of a woodworking function', () => {
    const book = bookOf({ sheets: { A: [['=APRON_LENGTH(84,6,3.5)']] } });
    const used = book.explain({ sheet: 's1', row: 0, column: 0 }).functions;
    expect(used).toEqual(['APRON_LENGTH']);
    expect(functionNote('APRON_LENGTH')?.source).not.toBe('');
  });
});
