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

/**
 * A typed formula as it reads when its cell is copied to another with rows turned into columns: what
 * stood above it stands at its left. References with a `$` stay.
 */
export function transposed(a1: string, from: Spot, to: Spot): string {
  return rewritten(a1, (corner) => {
    const { row, column, rowFixed, columnFixed } = corner;
    if (row === undefined || column === undefined || rowFixed || columnFixed) {
      return shiftedCorner(corner, 0, 0);
    }
    const [down, across] = [row - from.row, column - from.column];
    return shiftedCorner(corner, to.row + across - row, to.column + down - column);
  });
}

interface Spot {
  readonly row: number;
  readonly column: number;
}

/** A formula with both corners of every reference rewritten; one that has no place is `#REF!`. */
function rewritten(a1: string, rewrite: (corner: Corner) => string | undefined): string {
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

const prefix = (sheet: string | undefined): string =>
  sheet === undefined ? '' : `${writtenSheet(sheet)}!`;

function shiftedCorner(corner: Corner, rows: number, columns: number): string | undefined {
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

const FORMS = [
  { rowFixed: false, columnFixed: false },
  { rowFixed: true, columnFixed: true },
  { rowFixed: true, columnFixed: false },
  { rowFixed: false, columnFixed: true },
] as const;

/**
 * A reference in its next form (G29): `B3` → `$B$3` → `B$3` → `$B3` → `B3`. Both corners of a range
 * take the form that follows the first one's; what is no reference stays.
 */
export function nextForm(reference: string): string {
  const written = readWritten(reference);
  if (written === undefined) return reference;
  const { sheet, from, to } = written;
  const now = FORMS.findIndex(
    (form) =>
      (from.row === undefined || form.rowFixed === from.rowFixed) &&
      (from.column === undefined || form.columnFixed === from.columnFixed),
  );
  const form = FORMS[(now + 1) % FORMS.length];
  const texts = [from, to].flatMap((corner) =>
    corner === undefined ? [] : [shiftedCorner({ ...corner, ...form }, 0, 0)],
  );
  return `${prefix(sheet)}${texts.join(':')}`;
}
