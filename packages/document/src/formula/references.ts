import { type Corner, columnName, parseCorner, splitSheet, writtenSheet } from './address.ts';
import { type KeptCorner, type KeptReference, keptText, replaceKept } from './kept.ts';
import { nameKey } from './names.ts';
import { tokensOfText } from './tokens.ts';

/** The way between positions and ids of a workbook's sheets, rows and columns. */
export interface SheetIndex {
  sheetId(name: string): string | undefined;
  sheetName(id: string): string | undefined;
  columnId(sheet: string, index: number): string | undefined;
  columnIndex(sheet: string, id: string): number | undefined;
  rowId(sheet: string, index: number): string | undefined;
  rowIndex(sheet: string, id: string): number | undefined;
}

interface WrittenReference {
  readonly sheet?: string;
  readonly from: Corner;
  readonly to?: Corner;
}

/** Whether a token is a cell, a range, or a range of whole rows or columns. */
export const isReference = (token: { readonly type: string }): boolean =>
  token.type === 'range' || token.type === 'range_beam' || token.type === 'range_ternary';

/** Reads `Base!$A$1:B9`; `undefined` for what only looks like a reference. */
export function readWritten(text: string): WrittenReference | undefined {
  const { sheet, rest } = splitSheet(text);
  const [first = '', second, more] = rest.split(':');
  const from = parseCorner(first);
  const to = second === undefined ? undefined : parseCorner(second);
  if (from === undefined || more !== undefined) return undefined;
  if (second !== undefined && (to === undefined || !sameShape(from, to))) return undefined;
  if (second === undefined && (from.row === undefined || from.column === undefined)) {
    return undefined;
  }
  return { ...(sheet === undefined ? {} : { sheet }), from, ...(to === undefined ? {} : { to }) };
}

const sameShape = (a: Corner, b: Corner): boolean =>
  (a.row === undefined) === (b.row === undefined) &&
  (a.column === undefined) === (b.column === undefined);

/** A formula on `sheet` with every reference by address that exists turned into ids (rule F1). */
export function toIds(a1: string, sheet: string, index: SheetIndex): string {
  let kept = a1;
  // Once one reference of `B$2A1` is in brackets, the rest reads as another: none may be left for the
  // next time the text is read.
  for (let again = true; again; ) {
    again = false;
    const next = tokensOf(kept)
      .map((token, at, all) => {
        const may = isReference(token) && !isChained(all, at);
        const ids = may ? keptOf(token.value, sheet, index) : undefined;
        again ||= ids !== undefined;
        return ids ?? token.value;
      })
      .join('');
    kept = next;
  }
  return kept;
}

/** `A1:B2:C3`: the last would be taken for the end of a range with what stands before it. */
function isChained(tokens: readonly { type: string; value: string }[], at: number): boolean {
  const before = tokens[at - 2];
  if (tokens[at - 1]?.value !== ':' || before === undefined) return false;
  return before.type === 'kept' || isReference(before);
}

function keptOf(text: string, home: string, index: SheetIndex): string | undefined {
  const written = readWritten(text);
  if (written === undefined) return undefined;
  const sheet = written.sheet === undefined ? home : index.sheetId(written.sheet);
  if (sheet === undefined) return undefined;
  const from = keptCorner(written.from, sheet, index);
  const to = written.to === undefined ? undefined : keptCorner(written.to, sheet, index);
  if (from === undefined || (written.to !== undefined && to === undefined)) return undefined;
  return keptText({
    ...(written.sheet === undefined ? {} : { sheet }),
    from,
    ...(to === undefined ? {} : { to }),
  });
}

function keptCorner(corner: Corner, sheet: string, index: SheetIndex): KeptCorner | undefined {
  const column = corner.column === undefined ? undefined : index.columnId(sheet, corner.column);
  const row = corner.row === undefined ? undefined : index.rowId(sheet, corner.row);
  if (corner.column !== undefined && column === undefined) return undefined;
  if (corner.row !== undefined && row === undefined) return undefined;
  return {
    ...(column === undefined ? {} : { column }),
    ...(row === undefined ? {} : { row }),
    columnFixed: corner.columnFixed,
    rowFixed: corner.rowFixed,
  };
}

/** A reference by address, outside brackets: what a hand or another program wrote into a file. */
const LOOSE =
  /(?:^|[^A-Za-z0-9_.[\]$])\$?(?:[A-Za-z]{1,3}\$?\d|[A-Za-z]{1,3}:\$?[A-Za-z]|\d+:\$?\d)/;

/** Whether a kept formula still holds a reference by address; quick, and true of some that hold none. */
export const hasLoose = (kept: string): boolean => LOOSE.test(kept);

/**
 * A kept formula with `#REF!` for what is still kept by address: its sheet, row or column is not there.
 * Once it is, the reference becomes ids (rule F7).
 */
export function withoutLoose(kept: string): string {
  if (!hasLoose(kept)) return kept;
  return tokensOf(kept)
    .map((token) => {
      const loose = isReference(token) && readWritten(token.value) !== undefined;
      return loose ? '#REF!' : token.value;
    })
    .join('');
}

/** A typed formula with `#REF!` for every reference to a sheet that is not there. */
export function withoutUnknownSheets(a1: string, isSheet: (name: string) => boolean): string {
  if (!a1.includes('!')) return a1;
  return tokensOfText(a1)
    .map(({ type, value }) => {
      if (type === 'string' || type === 'error') return value;
      const { sheet } = splitSheet(value);
      return sheet === undefined || isSheet(sheet) ? value : '#REF!';
    })
    .join('');
}

/** A kept formula with A1 addresses as they are now; what is gone reads `#REF!` (rule F5). */
export function toAddresses(kept: string, sheet: string, index: SheetIndex): string {
  return replaceKept(kept, (reference) => addressOf(reference, sheet, index) ?? '#REF!');
}

function addressOf(reference: KeptReference, home: string, index: SheetIndex): string | undefined {
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

/**
 * How far the references of a typed formula reach, by sheet id, in rows and columns. Whole rows
 * and columns reach only as far as they name.
 */
export function extentOf(
  a1: string,
  sheet: string,
  index: SheetIndex,
): Map<string, { rows: number; columns: number }> {
  const extent = new Map<string, { rows: number; columns: number }>();
  for (const token of tokensOfText(a1)) {
    const written = isReference(token) ? readWritten(token.value) : undefined;
    if (written === undefined) continue;
    const id = written.sheet === undefined ? sheet : index.sheetId(written.sheet);
    if (id === undefined) continue;
    const known = extent.get(id) ?? { rows: 0, columns: 0 };
    const corners = written.to === undefined ? [written.from] : [written.from, written.to];
    extent.set(id, {
      rows: Math.max(known.rows, ...corners.map(({ row }) => (row ?? -1) + 1)),
      columns: Math.max(known.columns, ...corners.map(({ column }) => (column ?? -1) + 1)),
    });
  }
  return extent;
}

export interface Gone {
  readonly sheet: string;
  readonly rows?: readonly string[];
  readonly columns?: readonly string[];
}

/**
 * A kept formula with the ends of its ranges moved off rows and columns about to be deleted
 * (rule S3). Called while they are still there. Single references are left: they may heal.
 */
export function shrinkAfterDelete(
  kept: string,
  home: string,
  gone: Gone,
  index: SheetIndex,
): string {
  return replaceKept(kept, (reference, text) => {
    if (reference.to === undefined || (reference.sheet ?? home) !== gone.sheet) return text;
    const rows = movedEnds(reference.from.row, reference.to.row, gone.rows, {
      at: (id) => index.rowIndex(gone.sheet, id),
      id: (at) => index.rowId(gone.sheet, at),
    });
    const columns = movedEnds(reference.from.column, reference.to.column, gone.columns, {
      at: (id) => index.columnIndex(gone.sheet, id),
      id: (at) => index.columnId(gone.sheet, at),
    });
    if (rows === 'none' || columns === 'none') return '#REF!';
    if (rows === undefined && columns === undefined) return text;
    return keptText({
      ...reference,
      from: { ...reference.from, ...part('row', rows?.[0]), ...part('column', columns?.[0]) },
      to: { ...reference.to, ...part('row', rows?.[1]), ...part('column', columns?.[1]) },
    });
  });
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

/** The tokens of a formula in either form; a kept reference is one token of its own text. */
export function tokensOf(formula: string): readonly { type: string; value: string }[] {
  const tokens: { type: string; value: string }[] = [];
  let read = 0;
  // What stands between them is read by itself: a reference must not grow together with its neighbour.
  const readTo = (end: number): void => {
    if (end > read) tokens.push(...tokensOfText(formula.slice(read, end)));
  };
  replaceKept(formula, (_, text, at) => {
    readTo(at);
    tokens.push({ type: 'kept', value: text });
    read = at + text.length;
    return text;
  });
  readTo(formula.length);
  return tokens;
}

/** Renames a named cell in a formula of either form; however it is spelt there (rules S2, S7). */
export function renameNameIn(formula: string, from: string, to: string): string {
  const wanted = nameKey(from);
  return tokensOf(formula)
    .map(({ type, value }) => (type === 'range_named' && nameKey(value) === wanted ? to : value))
    .join('');
}

/** The names of cells a formula uses, as they are written, each as often as it stands there. */
export function namesIn(formula: string): string[] {
  return tokensOf(formula).flatMap(({ type, value }) => (type === 'range_named' ? value : []));
}

/** The functions a formula calls, in capitals, each as often as it stands there. */
export function functionsIn(formula: string): string[] {
  return tokensOf(formula).flatMap(({ type, value }) =>
    type === 'func' ? value.toUpperCase() : [],
  );
}

/** A typed formula with its function names in capitals and no spaces around it. */
export function tidy(a1: string): string {
  return tokensOfText(a1.trim())
    .map(({ type, value }) => (type === 'func' ? value.toUpperCase() : value))
    .join('');
}
