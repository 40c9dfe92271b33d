import { type CellDocument, LIMITS } from '../format/schema.ts';
import { type Corner, columnName, writtenSheet } from './address.ts';
import type { KeptCorner } from './kept.ts';
import { readWritten } from './references.ts';
import { type Formula, formulaOf, keptOf, readFormula, turned, withFormula } from './tree/read.ts';
import { rereferred } from './tree/turns.ts';

/**
 * A typed formula, read once, as it reads when copied so many rows down and columns to the right (G41):
 * relative parts of its references move along, parts with a `$` stay. What would leave the sheet
 * reads `#REF!`.
 */
export function shifting(a1: string): (rows: number, columns: number) => string {
  const formula = readFormula(a1);
  return (rows, columns) => keptOf(shifted(formula, rows, columns));
}

/** A copied cell with its formula as it reads so many rows down and columns to the right. */
export function shiftedCell(copied: CellDocument, rows: number, columns: number): CellDocument {
  const formula = formulaOf(copied);
  return formula === undefined ? copied : withFormula(copied, shifted(formula, rows, columns));
}

/**
 * A cell in saved form as it says the same of another row of its sheet: what its formula takes from its own row it takes
 * from that one, unless that stands with a `$`. All else it takes from where it did, wherever that is.
 * @param sheet id of the sheet
 * @param from id of the row it stands in
 * @param to id of the other row
 */
export function cellForRow(
  cell: CellDocument,
  sheet: string,
  from: string,
  to: string,
): CellDocument {
  const formula = formulaOf(cell);
  if (formula === undefined) return cell;
  const turnedTo = (corner: KeptCorner): KeptCorner =>
    corner.row === from && !corner.rowFixed ? { ...corner, row: to } : corner;
  return withFormula(
    cell,
    rereferred(formula, (reference) => {
      if (reference.sheet !== undefined && reference.sheet !== sheet) return undefined;
      const { to: last } = reference;
      return {
        ...reference,
        from: turnedTo(reference.from),
        ...(last === undefined ? {} : { to: turnedTo(last) }),
      };
    }),
  );
}

const shifted = (formula: Formula, rows: number, columns: number): Formula =>
  rewritten(formula, (corner) => shiftedCorner(corner, rows, columns));

/** A formula with both corners of every reference rewritten; one that has no place is `#REF!`. */
export const rewritten = (
  formula: Formula,
  rewrite: (corner: Corner) => string | undefined,
): Formula =>
  turned(formula, (token) => {
    const written = token.type === 'address' ? readWritten(token.value) : undefined;
    if (written === undefined) return token;
    const corners = [written.from, written.to].flatMap((corner) =>
      corner === undefined ? [] : [rewrite(corner)],
    );
    if (corners.includes(undefined)) return { type: 'error', value: '#REF!' };
    const value = `${prefix(written.sheet)}${corners.join(':')}`;
    return value === token.value ? token : { type: 'address', value };
  });

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
