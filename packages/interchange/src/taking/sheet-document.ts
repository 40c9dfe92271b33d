import type { CellDocument, ColumnDocument, RowDocument, SheetDocument } from '@kerfbook/document';
import type { SheetIn } from './coming-in.ts';
import type { SheetCells } from './in-own-units.ts';
import { columnOf, rowOf } from './place-key.ts';

/** What is made of a sheet beside its cells. */
interface About {
  /** Where it stands, from 0. */
  readonly index: number;
  /** What it is called here. */
  readonly name: string;
  readonly size: { readonly rows: number; readonly columns: number };
  /** Out of the list of sheets. */
  readonly isHidden: boolean;
}

/** A sheet of a file as a workbook keeps it. */
export function sheetDocument(
  sheet: SheetIn,
  cells: SheetCells,
  { index, name, size, isHidden: isOut }: About,
): SheetDocument {
  const columns = Array.from({ length: size.columns }, (_, at): ColumnDocument => {
    const { width, isHidden = false } = sheet.columns[at] ?? {};
    return {
      id: `c${at + 1}`,
      ...(isHidden ? { hidden: true as const } : {}),
      ...(width === undefined ? {} : { width }),
    };
  });
  const about = new Map(sheet.rows.map((one) => [one.row, one]));
  const byRow = new Map<number, Record<string, CellDocument>>();
  for (const [place, cell] of cells) {
    const row = rowOf(place);
    let line = byRow.get(row);
    if (line === undefined) {
      line = {};
      byRow.set(row, line);
    }
    line[`c${columnOf(place) + 1}`] = cell;
  }
  const rows = Array.from({ length: size.rows }, (_, at): RowDocument => {
    const { isHidden = false, group = 0 } = about.get(at) ?? {};
    const line = byRow.get(at);
    return {
      id: `r${at + 1}`,
      ...(isHidden ? { hidden: true as const } : {}),
      ...(group > 0 ? { group } : {}),
      ...(line === undefined ? {} : { cells: line }),
    };
  });
  const { rows: frozenRows, columns: frozenColumns } = sheet.frozen;
  return {
    id: `s${index + 1}`,
    name,
    ...(isOut ? { hidden: true as const } : {}),
    columns,
    rows,
    ...(frozenColumns > 0 ? { frozenColumns } : {}),
    ...(frozenRows > 0 ? { frozenRows } : {}),
  };
}
