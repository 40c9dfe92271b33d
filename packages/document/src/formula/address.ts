/** `A`, `B` … `Z`, `AA` … for a column counted from 0. */
export function columnName(index: number): string {
  let name = '';
  for (let rest = index + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    name = String.fromCharCode(65 + ((rest - 1) % 26)) + name;
  }
  return name;
}

/** The inverse of {@link columnName}; letters of either case. */
function columnIndexOf(name: string): number {
  let index = 0;
  for (const letter of name.toUpperCase()) index = index * 26 + letter.charCodeAt(0) - 64;
  return index - 1;
}

/** One end of a reference: a row, a column or both, and which of them stay put when copied. */
export interface Corner {
  readonly row?: number;
  readonly column?: number;
  readonly rowFixed: boolean;
  readonly columnFixed: boolean;
}

interface ParsedAddress {
  readonly sheet?: string;
  readonly row: number;
  readonly column: number;
}

const CORNER = /^(\$?)([A-Za-z]{1,3})?(\$?)(\d{1,7})?$/;

/** `$B$7`, `B7`, `B` (a whole column) or `7` (a whole row). */
export function parseCorner(text: string): Corner | undefined {
  const found = CORNER.exec(text);
  if (found === null) return undefined;
  const [, first = '', letters, second = '', digits] = found;
  if (letters === undefined && digits === undefined) return undefined;
  if (digits !== undefined && Number(digits) < 1) return undefined;
  // `$7` has its sign in front of the place where letters would stand.
  const rowDollar = letters === undefined ? first + second : second;
  if (digits === undefined && second !== '') return undefined;
  return {
    ...(digits === undefined ? {} : { row: Number(digits) - 1 }),
    ...(letters === undefined ? {} : { column: columnIndexOf(letters) }),
    rowFixed: rowDollar !== '',
    columnFixed: letters !== undefined && first !== '',
  };
}

/** Splits `Base!B7` and `'My parts'!B7` into the sheet's name and the rest. */
export function splitSheet(text: string): { sheet?: string; rest: string } {
  const point = text.lastIndexOf('!');
  if (point < 0) return { rest: text };
  const written = text.slice(0, point);
  const quoted = written.startsWith("'") && written.endsWith("'") && written.length > 1;
  const sheet = quoted ? written.slice(1, -1).replaceAll("''", "'") : written;
  return { sheet, rest: text.slice(point + 1) };
}

/** Words that are no sheet to a reader of formulas: addresses of both kinds, yes and no. */
const NO_SHEET = /^(?:r\d*c\d*|true|false)$/i;

/**
 * A sheet's name as it stands in a formula: a plain word of any script as it is, anything else within
 * quotes, apostrophes in it twice (rule F8). {@link splitSheet} reads it back.
 */
export function writtenSheet(name: string): string {
  const plain = /^[\p{L}_][\p{L}\p{M}\p{Nd}_]*$/u.test(name) && !isNoSheet(name);
  return plain ? name : `'${name.replaceAll("'", "''")}'`;
}

function isNoSheet(name: string): boolean {
  return parseCorner(name) !== undefined || NO_SHEET.test(name);
}

/** `Base!B7`, `$B$7` or `b7` as a place; `undefined` when the text is no address of one cell. */
export function parseAddress(text: string): ParsedAddress | undefined {
  const { sheet, rest } = splitSheet(text);
  const corner = parseCorner(rest);
  if (corner?.row === undefined || corner.column === undefined) return undefined;
  return { ...(sheet === undefined ? {} : { sheet }), row: corner.row, column: corner.column };
}
