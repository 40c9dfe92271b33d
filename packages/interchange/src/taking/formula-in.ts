import {
  columnName,
  guardFormula,
  nameKey,
  readTokens,
  readWritten,
  type Token,
  textOf,
  tokensOf,
  writtenSheet,
} from '@kerfbook/document';
import { functionNames } from '@kerfbook/functions';

/** What a name of the file stands for in formulas. */
export type NameMeant =
  /** It goes on as the name of a cell. */
  | { readonly kind: 'name'; readonly name: string }
  /** What it means is written in its place. */
  | { readonly kind: 'means'; readonly means: string; readonly sheet: number }
  | { readonly kind: 'no'; readonly why: string };

/** What a formula is read by. */
export interface FormulaContext {
  /** What a sheet of the file is called now; undefined where there is none. */
  sheetCalled(name: string): { readonly name: string; readonly index: number } | undefined;
  /** What a name means on a sheet. */
  nameMeant(name: string, sheet: number): NameMeant | undefined;
  /** Rows and columns in use of a sheet, and what is made of them. */
  sizeOf(sheet: number): { readonly rows: number; readonly columns: number };
  /** A single cell that a formula looks at has to be there. */
  needs(sheet: number, row: number, column: number): boolean;
}

/** A formula as a workbook takes it, with addresses and its `=`, and its pieces; or why it does not. */
export type FormulaIn =
  | { readonly ok: true; readonly a1: string; readonly tokens: readonly Token[] }
  | { readonly ok: false; readonly why: string };

/** What a file puts before the names of functions that came after its format, and no program shows. */
const PREFIX = /^(?:_xlfn\.|_xlws\.)+/i;
const KNOWN = new Set(functionNames());
const MOST_LETTERS = 8_192;
/** Names that mean names that mean names … */
const DEEPEST = 8;
/** Of a formula and all that its names stand for: a few of them that stand for a few others each make millions of letters. */
const MOST_WRITTEN_OUT = 2 * MOST_LETTERS;

/** Letters within which no formula is too long or too deep. */
const SHORT = 64;

class NotTaken extends Error {}

const ELSEWHERE = 'It looks into another file, or names columns of a table.';

/** A formula of a file as the program shows it that wrote it. */
export const formulaSeen = (text: string): string =>
  `=${text.replace(/^=/, '').replaceAll(/(?<![\w."])(?:_xlfn\.|_xlws\.)+(?=[a-z])/gi, '')}`;

/** Turns a formula of a file into one of ours. */
export function formulaIn(text: string, sheet: number, context: FormulaContext): FormulaIn {
  try {
    const before = tokensIn(text);
    const way: Way = { context, depth: 0, letters: { left: MOST_WRITTEN_OUT } };
    const after = before.map((token) => turnedToken(token, sheet, way));
    const isSame = after.every((value, at) => value === before[at]?.value);
    const a1 = isSame ? textOf(before) : after.join('');
    // Where a piece became another one, it may grow together with its neighbours.
    const tokens = isSame ? before : tokensOf(a1.trim());
    if (!isReadable(tokens)) {
      return { ok: false, why: 'It is written in a way that cannot be read here.' };
    }
    // Other programs work out what is longer and deeper than a formula here may be.
    const fault = a1.length > SHORT ? guardFormula(tokens) : undefined;
    return fault === undefined ? { ok: true, a1, tokens } : { ok: false, why: fault.says };
  } catch (error) {
    if (error instanceof NotTaken) return { ok: false, why: error.message };
    throw error;
  }
}

function tokensIn(text: string): readonly Token[] {
  if (text.length > MOST_LETTERS) throw new NotTaken(`It has ${text.length} letters.`);
  return tokensOf(`=${text.replace(/^=/, '')}`);
}

/** Where one is in a formula and what its names stand for. */
interface Way {
  readonly context: FormulaContext;
  readonly depth: number;
  /** How many more may be written in the place of names. */
  readonly letters: { left: number };
}

/** Whether formulas with the same pieces, whatever cells they look at, can be read. */
const READABLE = new Map<string, boolean>();
const MOST_KEPT = 1_000;

/** Sheets have the same formula in many rows: it is parsed once for all of them. */
function isReadable(tokens: readonly Token[]): boolean {
  let pieces = '';
  for (const { type, value } of tokens) {
    // What follows an error decides whether it is one.
    if (type === 'error') return readTokens(tokens).root !== undefined;
    pieces += type === 'address' ? '\u0001' : `${type}\u0001${value}\u0002`;
  }
  let is = READABLE.get(pieces);
  if (is === undefined) {
    is = readTokens(tokens).root !== undefined;
    if (READABLE.size >= MOST_KEPT) READABLE.clear();
    READABLE.set(pieces, is);
  }
  return is;
}

/** What a name stands for. */
function turned(text: string, sheet: number, { context, depth, letters }: Way): string {
  if (depth >= DEEPEST) throw new NotTaken('Its names stand for one another.');
  letters.left -= text.length;
  if (letters.left < 0)
    throw new NotTaken(
      'With what its names stand for it has more letters than a formula may have.',
    );
  const [, ...tokens] = tokensIn(text);
  const way = { context, depth: depth + 1, letters };
  return tokens.map((token) => turnedToken(token, sheet, way)).join('');
}

function turnedToken(token: Token, sheet: number, way: Way): string {
  const { type, value } = token;
  switch (type) {
    case 'func': {
      const name = value.replace(PREFIX, '').toUpperCase();
      if (!KNOWN.has(name)) throw new NotTaken(`There is no function ${short(name)} here.`);
      return name;
    }
    case 'address':
      return address(value, sheet, way.context);
    case 'range_named':
      return named(value, sheet, way);
    case 'range':
    case 'range_beam':
    case 'range_ternary':
      if (value.includes('[')) throw new NotTaken(ELSEWHERE);
      throw new NotTaken(`The reference ${short(value)} cannot be read here.`);
    case 'operator':
      if (value === '@' || value === '#' || value === '!')
        throw new NotTaken(`The sign ${value} is not known here.`);
      return value;
    case 'fx_prefix':
      return value;
    default:
      if (type !== 'string' && value.includes('[')) throw new NotTaken(ELSEWHERE);
      return value;
  }
}

/** A range is taken as far as the sheet is in use: beyond it there is nothing. */
function address(text: string, home: number, context: FormulaContext): string {
  if (text.includes('[')) throw new NotTaken(ELSEWHERE);
  const written = readWritten(text);
  if (written === undefined)
    throw new NotTaken(`The reference ${short(text)} cannot be read here.`);
  const at = written.sheet === undefined ? undefined : context.sheetCalled(written.sheet);
  if (written.sheet !== undefined && at === undefined) {
    throw new NotTaken(`There is no sheet "${short(written.sheet)}" in the file.`);
  }
  const sheet = at?.index ?? home;
  const prefix = at === undefined ? '' : `${writtenSheet(at.name)}!`;
  const { from, to } = written;
  if (to === undefined) {
    if (!context.needs(sheet, from.row ?? 0, from.column ?? 0)) return '#REF!';
    return `${prefix}${corner(from)}`;
  }
  const { rows, columns } = context.sizeOf(sheet);
  const within = (one: typeof from): typeof from => ({
    ...one,
    ...(one.row === undefined ? {} : { row: Math.min(one.row, Math.max(0, rows - 1)) }),
    ...(one.column === undefined ? {} : { column: Math.min(one.column, Math.max(0, columns - 1)) }),
  });
  const least = {
    row: Math.min(from.row ?? 0, to.row ?? 0),
    column: Math.min(from.column ?? 0, to.column ?? 0),
  };
  // Nothing of it is in use: its first cell has to be there for it to stand for nothing.
  if (least.row >= rows || least.column >= columns) {
    if (!context.needs(sheet, least.row, least.column)) return '#REF!';
    return `${prefix}${corner({ ...from, ...least })}:${corner({ ...to, ...least })}`;
  }
  return `${prefix}${corner(within(from))}:${corner(within(to))}`;
}

interface Corner {
  readonly row?: number;
  readonly column?: number;
  readonly rowFixed: boolean;
  readonly columnFixed: boolean;
}

const corner = ({ row, column, rowFixed, columnFixed }: Corner): string =>
  `${column === undefined ? '' : `${columnFixed ? '$' : ''}${columnName(column)}`}${row === undefined ? '' : `${rowFixed ? '$' : ''}${row + 1}`}`;

function named(text: string, sheet: number, way: Way): string {
  const { context } = way;
  const point = text.lastIndexOf('!');
  const prefix =
    point < 0 ? undefined : text.slice(0, point).replaceAll(/^'|'$/g, '').replaceAll("''", "'");
  const at = prefix === undefined ? undefined : context.sheetCalled(prefix);
  if (prefix !== undefined && (prefix.includes('[') || at === undefined)) {
    throw new NotTaken(ELSEWHERE);
  }
  const name = text.slice(point + 1);
  const key = nameKey(name);
  if (key === 'true' || key === 'false') return name;
  const meant = context.nameMeant(name, at?.index ?? sheet);
  if (meant === undefined) throw new NotTaken(`There is no name ${short(name)} in the file.`);
  switch (meant.kind) {
    case 'name':
      return meant.name;
    case 'no':
      throw new NotTaken(meant.why);
    case 'means':
      return `(${turned(meant.means, meant.sheet, way)})`;
  }
}

const LONGEST_SHOWN = 60;
const short = (text: string): string => text.replaceAll(/\p{C}/gu, '').slice(0, LONGEST_SHOWN);
