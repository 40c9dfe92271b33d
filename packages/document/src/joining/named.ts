import type { BookDocument, CellDocument } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';

/** Where a cell stands, by ids. */
export interface Home {
  readonly sheet: string;
  readonly row: string;
  readonly column: string;
}

/** A cell with a name. */
export interface NamedCell extends Home {
  readonly name: string;
  readonly cell: CellDocument;
}

export const homeKey = ({ sheet, row, column }: Home): string => `${sheet} ${row} ${column}`;

/** Every cell that is there. */
export function* cellsIn({
  sheets,
}: Pick<BookDocument, 'sheets'>): Generator<Home & { readonly cell: CellDocument }> {
  for (const { id, rows } of sheets) {
    for (const row of rows) {
      for (const [column, cell] of Object.entries(row.cells ?? {})) {
        yield { sheet: id, row: row.id, column, cell };
      }
    }
  }
}

/** Named cells by the keys of their names. */
export function namedCells(book: Pick<BookDocument, 'sheets'>): ReadonlyMap<string, NamedCell> {
  const found = new Map<string, NamedCell>();
  for (const at of cellsIn(book)) {
    const { name } = at.cell;
    if (name !== undefined) found.set(nameKey(name), { ...at, name });
  }
  return found;
}
