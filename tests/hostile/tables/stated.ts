import { type At, type BookDocument, type CellDocument, CHECKS_SHEET } from '@kerfbook/document';
import type { CellValue } from '@kerfbook/workbook';

/** One row of the parts table as a maker reads it; in. */
export interface StatedPart {
  readonly part: string;
  readonly count: number;
  readonly thickness: number;
  readonly width: number;
  readonly length: number;
  readonly material: string;
  /** Boards it is glued up of, as they are cut; left out where it is one piece. */
  readonly boards?: { readonly count: number; readonly width: number; readonly length: number };
}

/** A piece as it is drawn, with its sizes along, across and up; in. */
export interface StatedPiece {
  readonly name: string;
  readonly from: readonly [number, number, number];
  readonly size: readonly [number, number, number];
}

/** One row of the stock table; in. */
export interface StatedStock {
  readonly stock: string;
  readonly material: string;
  readonly thickness: number;
  readonly width: number;
  readonly length: number;
  readonly price: number;
  /** Infinity: as many as are needed. */
  readonly atHand: number;
}

/** A piece of the cut list; in. */
export interface StatedCut {
  readonly name: string;
  readonly count: number;
  readonly thickness: number;
  readonly width: number;
  readonly length: number;
}

/** What a workbook of a table says of it, in the units of the us: in, lb, lbf, °F. */
export interface Stated {
  /** Inputs by their names. */
  readonly inputs: Readonly<Record<string, number | string>>;
  readonly parts: readonly StatedPart[];
  readonly stock: readonly StatedStock[];
  /** Results that are held against what the judge works out itself, by their names. */
  readonly shown: Readonly<Record<string, number | string>>;
  /** Cells that show an error, as `Sheet!row: what it says`. */
  readonly errors: readonly string[];
  /** The pieces that are drawn, where they were asked for. */
  readonly pieces?: readonly StatedPiece[];
  /** The list of what is cut, where it was asked for. */
  readonly cuts?: readonly StatedCut[];
  /** What the tables of parts and joints complain of, and parts that the drawing finds in one another, where they were asked for. */
  readonly troubles?: readonly string[];
  /** What the plan leaves out, where it was asked for. */
  readonly leftOut?: readonly string[];
}

/** Gives the value of a cell, or of a check. */
export type ValueAt = (at: At) => CellValue;

/** Exact by definition: NIST SP 811, appendix B. */
const MM = 25.4;
const KG = 0.45359237;
const NEWTON = 4.4482216152605;

const PER_US: Readonly<Record<string, number>> = {
  length: MM,
  area: MM ** 2,
  mass: KG,
  force: NEWTON,
  pressure: NEWTON / MM ** 2,
  liquid: 29.5735295625,
  coverage: MM ** 2 / 29.5735295625,
};

/** A number of a workbook in the units of the us. */
export function inUs(value: number, quantity: string | undefined, units: string): number {
  if (units === 'us' || quantity === undefined) return value;
  return quantity === 'temperature' ? value * 1.8 + 32 : value / (PER_US[quantity] ?? 1);
}

/** The inverse of {@link inUs}. */
export function fromUs(value: number, quantity: string | undefined, units: string): number {
  if (units === 'us' || quantity === undefined) return value;
  return quantity === 'temperature' ? (value - 32) / 1.8 : value * (PER_US[quantity] ?? 1);
}

/** A cell of a workbook and where it is. */
export interface Placed {
  readonly at: At;
  readonly cell: CellDocument;
}

/** Every cell that is written, in the order of the workbook. */
export const cellsOf = (document: BookDocument): readonly Placed[] =>
  document.sheets.flatMap(({ id, rows, columns }) =>
    rows.flatMap(({ cells = {} }, row) =>
      columns.flatMap((one, column) => {
        const cell = cells[one.id];
        return cell === undefined ? [] : [{ at: { sheet: id, row, column }, cell }];
      }),
    ),
  );

/** The places of a workbook's checks. */
export const checksOf = (document: BookDocument): readonly At[] =>
  document.checks.map((_, row) => ({ sheet: CHECKS_SHEET, row, column: 0 }));

/** Reads what a workbook says of its table. */
export function statedOf(document: BookDocument, valueAt: ValueAt): Stated {
  const { units } = document;
  const read = ({ at, cell }: Placed): number | string | undefined => {
    const value = valueAt(at);
    if (value.kind === 'number') return inUs(value.number, cell.quantity, units);
    return value.kind === 'text' ? value.text : undefined;
  };
  const inputs: Record<string, number | string> = {};
  const shown: Record<string, number | string> = {};
  const errors: string[] = [];
  for (const placed of cellsOf(document)) {
    const { at, cell } = placed;
    const value = valueAt(at);
    if (value.kind === 'error') errors.push(`${at.sheet}!${at.row + 1}: ${value.error.says}`);
    if (cell.name === undefined) continue;
    const known = read(placed);
    if (known !== undefined) (cell.formula === undefined ? inputs : shown)[cell.name] = known;
  }
  return {
    inputs,
    shown,
    errors,
    parts: rowsOf(document, valueAt, 'parts').map(partOf),
    stock: rowsOf(document, valueAt, 'stock')
      .filter((row) => row.stock !== undefined && row.stock !== '')
      .map(stockOf),
  };
}

type Row = Readonly<Record<string, number | string | undefined>>;

/** Rows of a table by their headings, lengths in inches; none where there is no such table. */
function rowsOf(document: BookDocument, valueAt: ValueAt, kind: string): readonly Row[] {
  const table = document.tables.find((one) => one.kind === kind);
  const sheet = document.sheets.find(({ id }) => id === table?.sheet);
  if (table === undefined || sheet === undefined) return [];
  const first = sheet.rows.findIndex(({ id }) => id === table.header);
  const last = sheet.rows.findIndex(({ id }) => id === table.last);
  const headings = sheet.columns.map(({ id }) =>
    String(sheet.rows[first]?.cells?.[id]?.value ?? ''),
  );
  return sheet.rows.slice(first + 1, last + 1).map(({ cells = {} }, i) =>
    Object.fromEntries(
      sheet.columns.flatMap(({ id }, column): [string, number | string | undefined][] => {
        const cell = cells[id];
        const value = valueAt({ sheet: sheet.id, row: first + 1 + i, column });
        const heading = headings[column] ?? '';
        if (heading === '') return [];
        if (value.kind === 'text') return [[heading, value.text]];
        if (value.kind !== 'number') return [[heading, undefined]];
        return [[heading, inUs(value.number, cell?.quantity, document.units)]];
      }),
    ),
  );
}

const numberIn = (row: Row, heading: string, otherwise = Number.NaN): number => {
  const value = row[heading];
  return typeof value === 'number' ? value : otherwise;
};

function partOf(row: Row): StatedPart {
  const boards = numberIn(row, 'boards', 0);
  return {
    part: String(row.part ?? ''),
    count: numberIn(row, 'count'),
    thickness: numberIn(row, 'thickness'),
    width: numberIn(row, 'width'),
    length: numberIn(row, 'length'),
    material: String(row.material ?? ''),
    ...(boards === 0
      ? {}
      : {
          boards: {
            count: boards,
            width: numberIn(row, 'board width'),
            length: numberIn(row, 'board length'),
          },
        }),
  };
}

const stockOf = (row: Row): StatedStock => ({
  stock: String(row.stock ?? ''),
  material: String(row.material ?? ''),
  thickness: numberIn(row, 'thickness'),
  width: numberIn(row, 'width'),
  length: numberIn(row, 'length'),
  price: numberIn(row, 'price'),
  atHand: numberIn(row, 'at hand', Number.POSITIVE_INFINITY),
});
