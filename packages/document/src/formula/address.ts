/** `A`, `B` … `Z`, `AA` … for a column counted from 0. */
export function columnName(index: number): string {
  let name = '';
  for (let rest = index + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    name = String.fromCharCode(65 + ((rest - 1) % 26)) + name;
  }
  return name;
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

const [DOLLAR, ZERO, NINE] = [0x24, 0x30, 0x39];
const MOST_LETTERS = 3;
const MOST_DIGITS = 7;

/**
 * `$B$7`, `B7`, `B` (a whole column) or `7` (a whole row). Letter by letter, since each reference of each formula of a
 * large file comes through here several times.
 */
export function parseCorner(text: string): Corner | undefined {
  let at = text.charCodeAt(0) === DOLLAR ? 1 : 0;
  const first = at === 1;
  let column = 0;
  const letters = at;
  for (; at < letters + MOST_LETTERS; at += 1) {
    // Small letters become capitals, and no other letter one.
    const letter = text.charCodeAt(at) & ~0x20;
    if (!(letter >= 0x41 && letter <= 0x5a)) break;
    column = column * 26 + letter - 0x40;
  }
  const hasColumn = at > letters;
  const second = text.charCodeAt(at) === DOLLAR;
  if (second) at += 1;
  let row = 0;
  const digits = at;
  for (; at < digits + MOST_DIGITS; at += 1) {
    const digit = text.charCodeAt(at);
    if (!(digit >= ZERO && digit <= NINE)) break;
    row = row * 10 + digit - ZERO;
  }
  if (at < text.length) return undefined;
  if (at === digits) {
    return hasColumn && !second
      ? { column: column - 1, rowFixed: false, columnFixed: first }
      : undefined;
  }
  if (row < 1) return undefined;
  // `$7` has its sign in front of the place where letters would stand.
  if (!hasColumn) return { row: row - 1, rowFixed: first || second, columnFixed: false };
  return { row: row - 1, column: column - 1, rowFixed: second, columnFixed: first };
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
