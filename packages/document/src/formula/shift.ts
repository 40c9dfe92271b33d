import { LIMITS } from '../format/schema.ts';
import { type Corner, columnName, writtenSheet } from './address.ts';
import { readWritten } from './references.ts';
import { textOf, tokensOf } from './tree/tokens.ts';

/**
 * A typed formula as it reads when copied so many rows down and columns to the right (G41):
 * relative parts of its references move along, parts with a `$` stay. What would leave the sheet
 * reads `#REF!`.
 */
export function shifted(a1: string, rows: number, columns: number): string {
  return rewritten(a1, (corner) => shiftedCorner(corner, rows, columns));
}

/** A formula with both corners of every reference rewritten; one that has no place is `#REF!`. */
export function rewritten(a1: string, rewrite: (corner: Corner) => string | undefined): string {
  return textOf(
    tokensOf(a1).map((token) => {
      const written = token.type === 'address' ? readWritten(token.value) : undefined;
      if (written === undefined) return token;
      const corners = [written.from, written.to].flatMap((corner) =>
        corner === undefined ? [] : [rewrite(corner)],
      );
      const value = corners.includes(undefined)
        ? '#REF!'
        : `${prefix(written.sheet)}${corners.join(':')}`;
      return { ...token, value };
    }),
  );
}

export const prefix = (sheet: string | undefined): string =>
  sheet === undefined ? '' : `${writtenSheet(sheet)}!`;

export function shiftedCorner(corner: Corner, rows: number, columns: number): string | undefined {
  const row = moved(corner.row, corner.rowFixed ? 0 : rows, LIMITS.rows);
  const column = moved(corner.column, corner.columnFixed ? 0 : columns, LIMITS.columns);
  if (row === 'outside' || column === 'outside') return undefined;
  const left = column === undefined ? '' : `${corner.columnFixed ? '$' : ''}${columnName(column)}`;
  return row === undefined ? left : `${left}${corner.rowFixed ? '$' : ''}${row + 1}`;
}

function moved(at: number | undefined, by: number, most: number): number | undefined | 'outside' {
  if (at === undefined) return undefined;
  return at + by < 0 || at + by >= most ? 'outside' : at + by;
}
