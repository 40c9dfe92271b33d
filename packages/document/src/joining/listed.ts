import type { BookDocument, CellDocument, TableDocument } from '../format/schema.ts';
import { type NamesIn, namesInColumn, renamedListed } from '../state/listed-names.ts';

/** Former names with those that cells have from now on. */
export type Renames = readonly (readonly [from: string, to: string])[];

/**
 * A workbook whose tables list cells by the names that these have from now on: words of a text follow no formula. The
 * workbook itself where none of them stands in a table.
 */
export function withNamesListed(book: BookDocument, renames: Renames): BookDocument {
  if (renames.length === 0) return book;
  const tables = new Map<string, TableDocument[]>();
  for (const table of book.tables) {
    tables.set(table.sheet, [...(tables.get(table.sheet) ?? []), table]);
  }
  let other = false;
  const sheets = book.sheets.map((sheet) => {
    let { rows } = sheet;
    for (const { kind, header, last } of tables.get(sheet.id) ?? []) {
      const [first, end] = [header, last].map((id) => rows.findIndex((row) => row.id === id));
      const heads = rows[first ?? -1]?.cells ?? {};
      const how = new Map(
        Object.entries(heads).flatMap(([column, { value }]): [string, NamesIn][] => {
          const found = namesInColumn(kind, typeof value === 'string' ? value : '');
          return found === undefined ? [] : [[column, found]];
        }),
      );
      if (how.size === 0 || first === undefined || end === undefined) continue;
      rows = rows.map((row, i) => {
        if (i < first || i > end || row.cells === undefined) return row;
        const cells = Object.entries(row.cells).map(([column, cell]): [string, CellDocument] => {
          const way = how.get(column);
          // What stands over a column is a name, or what stands under it is.
          if (way === undefined || (way === 'head') !== (i === first)) return [column, cell];
          const now = withListed(cell, way, renames);
          if (now !== cell) other = true;
          return [column, now];
        });
        return { ...row, cells: Object.fromEntries(cells) };
      });
    }
    return rows === sheet.rows ? sheet : { ...sheet, rows };
  });
  return other ? { ...book, sheets } : book;
}

function withListed(cell: CellDocument, how: NamesIn, renames: Renames): CellDocument {
  const { value, typed, formula } = cell;
  if (typeof value !== 'string' || formula !== undefined) return cell;
  const then = (text: string): string =>
    renames.reduce((said, [from, to]) => renamedListed(said, how, from, to), text);
  const now = then(value);
  if (now === value) return cell;
  return { ...cell, value: now, ...(typed === undefined ? {} : { typed: then(typed) }) };
}
