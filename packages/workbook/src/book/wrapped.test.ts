import { loadText, saveText } from '@kerfbook/document';
import { describe, expect, it } from 'vitest';
import { bookOf, place, type } from '../testing/sample.ts';
import { Workbook } from '../workbook.ts';

const book = () =>
  bookOf({
    sheets: {
      Plan: [
        ['Glue the legs first', 'oak', ''],
        ['2', 'ash', ''],
        ['', '', ''],
      ],
    },
  });

const wrap = (made: Workbook, address: string, wrap = true) => {
  const { sheet, row, column } = place(made, address);
  const { wrap: _was, ...others } = made.cell({ sheet, row, column }).style ?? {};
  const style = wrap ? { ...others, wrap: true as const } : others;
  const traits = { style: Object.keys(style).length === 0 ? null : style };
  const result = made.apply({ do: 'describeCells', sheet, cells: [{ row, column, traits }] });
  if (!result.ok) throw new Error(result.says);
};

const wrapped = (made: Workbook) => made.sheets()[0]?.mayWrap;

describe('words that are wrapped', () => {
  it('are a part of how a cell looks, and undone to the byte', () => {
    const made = book();
    const before = saveText(made.document());
    wrap(made, 'A1');
    expect(made.cell(place(made, 'A1')).style).toEqual({ wrap: true });
    const after = saveText(made.document());
    const again = loadText(after);
    if (!again.ok) throw new Error(again.says);
    expect(saveText(Workbook.open(again.document).document())).toBe(after);
    expect(wrapped(Workbook.open(again.document))).toEqual([{ row: 0, column: 0 }]);
    made.undo();
    expect(saveText(made.document())).toBe(before);
    expect(wrapped(made)).toEqual([]);
    made.redo();
    expect(saveText(made.document())).toBe(after);
    wrap(made, 'A1', false);
    expect(saveText(made.document())).toBe(before);
  });

  it('are listed where they are after every change of rows and columns', () => {
    const made = book();
    const [sheet = { id: '' }] = made.sheets();
    wrap(made, 'B2');
    wrap(made, 'A1');
    expect(wrapped(made)).toEqual([
      { row: 0, column: 0 },
      { row: 1, column: 1 },
    ]);
    made.apply({
      do: 'insertRows',
      sheet: sheet.id,
      at: 1,
      rows: [{ id: 'x1' }, { id: 'x2' }],
    });
    made.apply({ do: 'insertColumns', sheet: sheet.id, at: 0, columns: [{ id: 'y1' }] });
    expect(wrapped(made)).toEqual([
      { row: 0, column: 1 },
      { row: 3, column: 2 },
    ]);
    made.apply({ do: 'deleteColumns', sheet: sheet.id, at: 1, count: 1 });
    expect(wrapped(made)).toEqual([{ row: 3, column: 1 }]);
    for (let i = 0; i < 3; i += 1) made.undo();
    made.apply({ do: 'deleteRows', sheet: sheet.id, at: 0, count: 2 });
    expect(wrapped(made)).toEqual([]);
    made.apply({ do: 'deleteRows', sheet: sheet.id, at: 0, count: 1 });
    expect(wrapped(made)).toEqual([]);
    // Rows that come back bring theirs.
    made.undo();
    made.undo();
    expect(wrapped(made)).toEqual([
      { row: 0, column: 0 },
      { row: 1, column: 1 },
    ]);
  });

  it('are the same list as before as long as they are the same, so that nothing need be looked at again', () => {
    const made = book();
    const none = wrapped(made);
    type(made, 'A2', '3');
    expect(wrapped(made)).toBe(none);
    wrap(made, 'A1');
    const one = wrapped(made);
    type(made, 'A2', '4');
    expect(wrapped(made)).toBe(one);
    type(made, 'A1', 'Glue the rails first');
    expect(wrapped(made)).toEqual(one);
  });
});
