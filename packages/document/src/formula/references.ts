import { type Corner, columnName, parseCorner, splitSheet, writtenSheet } from './address.ts';
import { type KeptCorner, type KeptReference, keptCorner } from './kept.ts';

/** The way between positions and ids of a workbook's sheets, rows and columns. */
export interface SheetIndex {
  sheetId(name: string): string | undefined;
  sheetName(id: string): string | undefined;
  columnId(sheet: string, index: number): string | undefined;
  columnIndex(sheet: string, id: string): number | undefined;
  rowId(sheet: string, index: number): string | undefined;
  rowIndex(sheet: string, id: string): number | undefined;
}

export interface WrittenReference {
  readonly sheet?: string;
  readonly from: Corner;
  readonly to?: Corner;
}

/** Reads `Base!$A$1:B9`; `undefined` for what only looks like a reference. */
export function readWritten(text: string): WrittenReference | undefined {
  const { sheet, rest } = splitSheet(text);
  const colon = rest.indexOf(':');
  const from = parseCorner(colon < 0 ? rest : rest.slice(0, colon));
  if (from === undefined) return undefined;
  if (colon < 0) {
    if (from.row === undefined || from.column === undefined) return undefined;
    return sheet === undefined ? { from } : { sheet, from };
  }
  const to = parseCorner(rest.slice(colon + 1));
  if (to === undefined || !sameShape(from, to)) return undefined;
  return sheet === undefined ? { from, to } : { sheet, from, to };
}

const sameShape = (a: Corner, b: Corner): boolean =>
  (a.row === undefined) === (b.row === undefined) &&
  (a.column === undefined) === (b.column === undefined);

/** A reference as it is typed on a sheet, by ids; undefined where it names what is not there. */
export function idsOf(text: string, home: string, index: SheetIndex): KeptReference | undefined {
  const written = readWritten(text);
  if (written === undefined) return undefined;
  const sheet = written.sheet === undefined ? home : index.sheetId(written.sheet);
  if (sheet === undefined) return undefined;
  const from = cornerByIds(written.from, sheet, index);
  const to = written.to === undefined ? undefined : cornerByIds(written.to, sheet, index);
  if (from === undefined || (written.to !== undefined && to === undefined)) return undefined;
  if (to === undefined) return written.sheet === undefined ? { from } : { sheet, from };
  return written.sheet === undefined ? { from, to } : { sheet, from, to };
}

function cornerByIds(corner: Corner, sheet: string, index: SheetIndex): KeptCorner | undefined {
  const column = corner.column === undefined ? undefined : index.columnId(sheet, corner.column);
  const row = corner.row === undefined ? undefined : index.rowId(sheet, corner.row);
  if (corner.column !== undefined && column === undefined) return undefined;
  if (corner.row !== undefined && row === undefined) return undefined;
  return keptCorner(column, row, corner.columnFixed, corner.rowFixed);
}

/** The cell that a corner of a reference is; undefined where it is gone, or a whole row or column. */
export function cellOf(
  { row, column }: KeptCorner,
  sheet: string,
  index: SheetIndex,
): { readonly sheet: string; readonly row: number; readonly column: number } | undefined {
  if (row === undefined || column === undefined) return undefined;
  const [rowAt, columnAt] = [index.rowIndex(sheet, row), index.columnIndex(sheet, column)];
  if (rowAt === undefined || columnAt === undefined) return undefined;
  return { sheet, row: rowAt, column: columnAt };
}

/** A reference by ids as an address on a sheet; undefined where what it names is gone. */
export function addressOf(
  reference: KeptReference,
  home: string,
  index: SheetIndex,
): string | undefined {
  const sheet = reference.sheet ?? home;
  const name = reference.sheet === undefined ? undefined : index.sheetName(reference.sheet);
  if (reference.sheet !== undefined && name === undefined) return undefined;
  const from = cornerAddress(reference.from, sheet, index);
  const to = reference.to === undefined ? '' : cornerAddress(reference.to, sheet, index);
  if (from === undefined || to === undefined) return undefined;
  const prefix = name === undefined ? '' : `${writtenSheet(name)}!`;
  return `${prefix}${from}${to === '' ? '' : `:${to}`}`;
}

function cornerAddress(corner: KeptCorner, sheet: string, index: SheetIndex): string | undefined {
  let text = '';
  if (corner.column !== undefined) {
    const column = index.columnIndex(sheet, corner.column);
    if (column === undefined) return undefined;
    text += `${corner.columnFixed ? '$' : ''}${columnName(column)}`;
  }
  if (corner.row !== undefined) {
    const row = index.rowIndex(sheet, corner.row);
    if (row === undefined) return undefined;
    text += `${corner.rowFixed ? '$' : ''}${row + 1}`;
  }
  return text;
}

export interface Gone {
  readonly sheet: string;
  readonly rows?: readonly string[];
  readonly columns?: readonly string[];
}

/**
 * A range with its ends moved off rows and columns about to be deleted (rule S3); `null` where nothing of
 * it is left, undefined where it stays.
 */
export function shrunkReference(
  reference: KeptReference,
  home: string,
  gone: Gone,
  index: SheetIndex,
): KeptReference | null | undefined {
  if (reference.to === undefined || (reference.sheet ?? home) !== gone.sheet) return undefined;
  const rows = movedEnds(reference.from.row, reference.to.row, gone.rows, {
    at: (id) => index.rowIndex(gone.sheet, id),
    id: (at) => index.rowId(gone.sheet, at),
  });
  const columns = movedEnds(reference.from.column, reference.to.column, gone.columns, {
    at: (id) => index.columnIndex(gone.sheet, id),
    id: (at) => index.columnId(gone.sheet, at),
  });
  if (rows === 'none' || columns === 'none') return null;
  if (rows === undefined && columns === undefined) return undefined;
  return {
    ...reference,
    from: { ...reference.from, ...part('row', rows?.[0]), ...part('column', columns?.[0]) },
    to: { ...reference.to, ...part('row', rows?.[1]), ...part('column', columns?.[1]) },
  };
}

const part = (key: 'row' | 'column', id: string | undefined) =>
  id === undefined ? {} : { [key]: id };

interface Axis {
  at(id: string): number | undefined;
  id(at: number): string | undefined;
}

/** New ends; `undefined` when they may stay; `none` when nothing of the range is left. */
function movedEnds(
  from: string | undefined,
  to: string | undefined,
  gone: readonly string[] | undefined,
  axis: Axis,
): [string, string] | undefined | 'none' {
  if (from === undefined || to === undefined || gone === undefined) return undefined;
  if (!gone.includes(from) && !gone.includes(to)) return undefined;
  const [first, last] = [axis.at(from), axis.at(to)];
  if (first === undefined || last === undefined) return undefined;
  const step = first <= last ? 1 : -1;
  const inward = (start: number, end: number, by: number): string | undefined => {
    for (let at = start; by > 0 ? at <= end : at >= end; at += by) {
      const id = axis.id(at);
      if (id !== undefined && !gone.includes(id)) return id;
    }
    return undefined;
  };
  const newFrom = inward(first, last, step);
  const newTo = inward(last, first, -step);
  return newFrom === undefined || newTo === undefined ? 'none' : [newFrom, newTo];
}
