import { readFileSync } from 'node:fs';
import { columnName, type Edit, loadText, loadValue, saveText } from '@kerfbook/document';
import { former } from '@kerfbook/document/testing';
import { describe, expect, it } from 'vitest';
import { Workbook } from '../workbook.ts';

const kept = (name: string): string =>
  readFileSync(new URL(`testdata/${name}.json`, import.meta.url), 'utf8');

function opened(text: string) {
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded;
}

describe('a workbook of version 1', () => {
  it('D3 opens, shows what it showed, and is of the newest version when it is saved', () => {
    const shows = JSON.parse(kept('dining-table-1-shows')) as {
      readonly numbers: Record<string, number>;
      readonly checks: Record<string, [string, string]>;
    };
    const loaded = opened(kept('dining-table-1'));
    const book = Workbook.open(loaded.document);
    const numbers: Record<string, number> = {};
    for (const { id, name, rows, columns } of book.sheets()) {
      for (let row = 0; row < rows; row += 1) {
        for (let column = 0; column < columns; column += 1) {
          const value = book.value({ sheet: id, row, column });
          if (value.kind === 'number')
            numbers[`${name}!${columnName(column)}${row + 1}`] = value.number;
        }
      }
    }
    expect(numbers).toEqual(shows.numbers);
    expect(Object.keys(numbers).length).toBeGreaterThan(200);
    const checks = book.checks().map(({ id, state, says }) => [id, [state, says]]);
    expect(Object.fromEntries(checks)).toEqual(shows.checks);
    expect(book.problems()).toEqual([]);
    expect(book.named('panel_boards')?.entry).toBe('=PANEL_BOARDS(top_width,widest_board)');
    expect(loaded.migration?.says).toMatch(
      /^This workbook is from an earlier Kerfbook, .+: 16 names in it /,
    );
    const text = saveText(book.document());
    expect(text).toMatch(/^\{\n {2}"kerfbook": 8,/);
    expect(text).not.toMatch(/stave_|STAVE|"otherwise"/);
    const again = opened(text);
    expect(again.migration).toBeUndefined();
    expect(saveText(again.document)).toBe(text);
  });

  it('D3 lets a former name go on where another cell has the new one', () => {
    const loaded = loadValue(former({}, { c2: { value: 4, name: 'Widest_Board' } }));
    if (!loaded.ok) throw new Error(loaded.says);
    const book = Workbook.open(loaded.document);
    expect(book.named('widest_stave')?.shown.text).toBe('5.5');
    expect(book.named('panel_boards')?.entry).toBe('=PANEL_BOARDS(42,widest_stave)');
    expect(book.named('panel_boards')?.shown.text).toBe('8');
  });
});

describe('edits that the older program kept', () => {
  it('D3 E5 are carried out again in the words of today and come to the same', () => {
    const edits = [
      {
        do: 'enter',
        sheet: 's1',
        cells: [{ row: 0, column: 1, text: ' =stave_count+widest_stave' }],
      },
      {
        do: 'setCells',
        sheet: 's1',
        cells: [{ row: 1, column: 1, cell: { value: 2, look: { strong: true } } }],
      },
      { do: 'setBook', set: { changes: 'inputs' } },
      { do: 'setBook', set: { changes: null } },
      {
        do: 'setCells',
        sheet: 's1',
        cells: [{ row: 1, column: 1, cell: { formula: '=1+1', override: { value: 9 } } }],
      },
      { do: 'lift', sheet: 's1', cells: [{ row: 1, column: 1 }] },
      {
        do: 'several',
        edits: [
          {
            do: 'describeCells',
            sheet: 's1',
            cells: [{ row: 0, column: 0, traits: { look: { ground: 'ash' } } }],
          },
          {
            do: 'insertRows',
            sheet: 's1',
            at: 2,
            rows: [
              {
                id: 'r3',
                cells: { c1: { formula: '=STAVE_WIDTH(42,stave_count)', look: { slanted: true } } },
              },
            ],
          },
          { do: 'nameCell', at: { sheet: 's1', row: 2, column: 0 }, name: 'stave_width' },
        ],
      },
      {
        do: 'insertColumns',
        sheet: 's1',
        at: 2,
        columns: [{ id: 'c3' }],
        cells: { r1: { c3: { formula: '=stave_width' } } },
      },
      {
        do: 'addSheet',
        at: 1,
        sheet: { id: 's2', name: 'stave_width', frozen: 1, columns: [{ id: 'c1' }], rows: [] },
      },
      { do: 'renameSheet', sheet: 's2', name: 'stave_count' },
      {
        do: 'setChecks',
        checks: [
          {
            id: 'k',
            name: 'K',
            formula: '=stave_width>9',
            otherwise: 'stop',
            says: '{stave_width}',
          },
        ],
      },
      { do: 'renameName', from: 'stave_count', to: 'stave_count_' },
    ];
    const loaded = loadValue(former());
    if (!loaded.ok || loaded.migration === undefined) throw new Error('not of version 1');
    const book = Workbook.open(loaded.document);
    for (const edit of edits) {
      const applied = book.apply(loaded.migration.edit(edit) as Edit, 'again');
      expect(applied, JSON.stringify(edit)).toMatchObject({ ok: true });
    }
    const { sheets, checks } = book.document();
    expect(sheets[0]?.rows[0]?.cells).toMatchObject({
      c1: { style: { background: 'ash' }, name: 'widest_board' },
      c2: { formula: '=stave_count_+widest_board' },
      c3: { formula: '=panel_board_width' },
    });
    expect(sheets[0]?.rows[1]?.cells?.c2).toEqual({ formula: '=1+1' });
    expect(sheets[0]?.rows[2]?.cells?.c1).toMatchObject({
      formula: '=PANEL_BOARD_WIDTH(42,stave_count_)',
      name: 'panel_board_width',
      style: { italic: true },
    });
    expect(sheets[1]).toMatchObject({ name: 'stave_count', frozenColumns: 1 });
    expect(checks[0]).toMatchObject({ severity: 'stop', says: '{panel_board_width}' });
    expect(book.problems()).toEqual([]);
  });
});
