import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { documentOf, former } from '../testing/sample.ts';
import { formulaOfToday } from './former-formula.ts';
import { loadValue } from './load.ts';

describe('a workbook of version 1', () => {
  it('D3 keeps all it holds under the words of today', () => {
    const look = { strong: true, slanted: true, align: 'end', ground: 'clay' };
    const loaded = loadValue(
      former({
        changes: 'inputs',
        sheets: [
          {
            ...(former().sheets as object[])[0],
            frozen: 1,
            frozenRows: 2,
            rows: [{ id: 'r1', cells: { c1: { value: 'look: strong', look } } }],
          },
        ],
        checks: [
          {
            id: 'k',
            name: 'K',
            formula: '=1=1',
            otherwise: 'care',
            says: '{ x } {stave_width}',
            marks: '=Top!A1',
          },
        ],
      }),
    );
    expect(loaded).toMatchObject({
      ok: true,
      document: {
        kerfbook: 8,
        locked: true,
        sheets: [
          {
            frozenColumns: 1,
            frozenRows: 2,
            rows: [
              {
                cells: {
                  c1: {
                    value: 'look: strong',
                    style: { bold: true, italic: true, align: 'end', background: 'clay' },
                  },
                },
              },
            ],
          },
        ],
        checks: [{ severity: 'care', says: '{ x } {panel_board_width}', cells: '=Top!A1' }],
      },
    });
  });

  it('D3 says nothing where none of its names are others now', () => {
    const plain = former({ sheets: [{ id: 's1', name: 'Top', columns: [], rows: [] }] });
    expect(loadValue(plain)).toMatchObject({ ok: true, migration: { from: 1 } });
    const loaded = loadValue(plain);
    expect(loaded.ok && loaded.migration?.says).toBeUndefined();
  });

  const heads = (text: string): Record<string, unknown> => {
    const cells = { c1: { value: 'part' }, c2: { value: 'staves' }, c3: { value: text } };
    return former({
      sheets: [
        {
          id: 's1',
          name: 'Parts',
          columns: [{ id: 'c1' }, { id: 'c2' }, { id: 'c3' }],
          rows: [{ id: 'r0', cells: { c3: { value: text } } }, { id: 'r1', cells }, { id: 'r2' }],
        },
      ],
      tables: [{ id: 't1', kind: 'parts', sheet: 's1', header: 'r1', last: 'r2' }],
    });
  };

  it.each(['boards', ' Board  Width ', 'BOARD LENGTH'])(
    'D3 leaves a column headed %j to its maker, who had it before the word was ours',
    (text) => {
      const loaded = loadValue(heads(text));
      if (!loaded.ok) throw new Error(loaded.says);
      const rows = loaded.document.sheets[0]?.rows ?? [];
      expect(rows[1]?.cells?.c3?.value).toBe(`my ${text.trim()}`);
      // What was ours is found under its former word, and other rows are no heads.
      expect(rows[1]?.cells?.c2?.value).toBe('staves');
      expect(rows[0]?.cells?.c3?.value).toBe(text);
      expect(loaded.migration?.says).toBe(
        `This workbook is from an earlier Kerfbook. A column of yours in a parts table is headed "my ${text.trim()}" now, since "${text.trim()}" has come to mean the boards that a part is glued up of.`,
      );
    },
  );

  it('D3 leaves other heads and other tables as they are', () => {
    const stock = heads('boards');
    const [table] = stock.tables as object[];
    for (const same of [heads('my boards'), { ...stock, tables: [{ ...table, kind: 'stock' }] }]) {
      const loaded = loadValue(same);
      expect(loaded.ok && loaded.migration?.says).toBeUndefined();
    }
  });

  it('D1 refuses what was damaged before, and what says a thing twice', () => {
    const [sheet] = former().sheets as object[];
    for (const wrong of [
      { sheets: 5 },
      { sheets: [{ ...sheet, rows: [{ id: 'r1', cells: { c1: { look: 7 } } }] }] },
      { sheets: [{ ...sheet, frozen: 1, frozenColumns: 1 }] },
      { changes: 'all' },
      { changes: 'inputs', locked: true },
      { checks: [null, 3] },
    ]) {
      expect(loadValue(former(wrong)), JSON.stringify(wrong)).toMatchObject({
        ok: false,
        code: 'D4',
      });
    }
  });

  it('D1 takes anything under version 1 without throwing', () => {
    fc.assert(
      fc.property(
        fc.dictionary(fc.constantFrom('sheets', 'checks', 'title', 'changes'), fc.jsonValue()),
        (raw) => {
          expect(loadValue({ ...raw, kerfbook: 1 }).ok).toBe(false);
        },
      ),
    );
  });
});

describe.each([2, 3, 4, 5, 6, 7])('a workbook of version %d', (version) => {
  const second = (set: object = {}): object => ({
    ...documentOf({ sheets: { Top: [['Length', 84]] } }),
    ...set,
    kerfbook: version,
  });

  it('D3 is one of today as it stands, and so are edits made on it', () => {
    const was = second({ author: 'A made-up shop', locked: true });
    const loaded = loadValue(was);
    expect(loaded).toEqual({
      ok: true,
      document: { ...was, kerfbook: 8 },
      migration: { from: version, edit: expect.any(Function) },
    });
    const edit = { do: 'setBook', set: { author: 'Another' } };
    expect(loaded.ok && loaded.migration?.edit(edit)).toBe(edit);
  });

  it('D1 refuses what was damaged before', () => {
    expect(loadValue(second({ sheets: 5 }))).toMatchObject({ ok: false, code: 'D4' });
    expect(loadValue(second({ title: '' }))).toMatchObject({ ok: false, code: 'D4' });
  });
});

describe('edits that the older program kept', () => {
  it('D3 a whole workbook in an edit is brought up too, and what is no edit stays as it is', () => {
    const loaded = loadValue(former());
    if (!loaded.ok || loaded.migration === undefined) throw new Error('not of version 1');
    const { edit } = loaded.migration;
    expect(edit({ do: 'become', book: former() })).toMatchObject({
      do: 'become',
      book: { kerfbook: 2 },
    });
    for (const odd of [undefined, null, 7, 'text', [1], { do: 3, cells: 4 }])
      expect(edit(odd)).toEqual(odd);
  });
});

describe('formulas in the words of today', () => {
  const none: ReadonlySet<string> = new Set();

  it.each([
    ['=STAVE_COUNT(42,5)', '=PANEL_BOARDS(42,5)'],
    ['=stave_count (42,5)+Stave_Count', '=panel_boards (42,5)+panel_boards'],
    [
      '="STAVE_COUNT(1) stave_width "&stave_width',
      '="STAVE_COUNT(1) stave_width "&panel_board_width',
    ],
    ['="a ""stave_width"" b"&1', '="a ""stave_width"" b"&1'],
    ["='stave_width'!A1+stave_width!A1", "='stave_width'!A1+stave_width!A1"],
    ['=my_stave_width+stave_width_2+stave.width', '=my_stave_width+stave_width_2+stave.width'],
    [
      '=SUM([s1!c1.r1]:[c1.r9])*STAVES_PICK_WIDTH([c1.r1],9)',
      '=SUM([s1!c1.r1]:[c1.r9])*BOARDS_PICK_WIDTH([c1.r1],9)',
    ],
    ['=(stave_width', '=(panel_board_width'],
  ])('D3 %s', (was, is) => {
    expect(formulaOfToday(was, none).text).toBe(is);
  });

  it('D3 count what they change', () => {
    expect(formulaOfToday('=stave_width+STAVE_COUNT(1,1)+stave_width', none).renamed).toBe(3);
    expect(formulaOfToday('=stave_width', new Set(['stave_width']))).toEqual({
      text: '=stave_width',
      renamed: 0,
    });
  });
});
