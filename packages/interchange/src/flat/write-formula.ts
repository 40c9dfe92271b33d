import {
  type At,
  addressOf,
  type BookState,
  columnName,
  type Node,
  writtenSheet,
} from '@kerfbook/document';

/** What a formula is written for. */
export interface Writing {
  /** Where its references lead. */
  readonly state: BookState;
  /** Id of the sheet it stands on. */
  readonly sheet: string;
  /** How a function is called there. */
  functionName(name: string): string;
  /** A name that may not be written: the address of its cell instead. */
  nameOf(name: string): string;
  /** Where the format writes them otherwise than `'My parts'!$B$2:C9`. */
  readonly addresses?: (written: string) => string;
  /** What stands between arguments, and in constant tables between cells and between rows; commas and semicolons. */
  readonly between?: { readonly args: string; readonly cells: string; readonly rows: string };
}

const USUAL = { args: ',', cells: ',', rows: ';' } as const;

/** A formula as text with addresses, without its `=`. Brackets of the tree are all that are needed. */
export function writeFormula(root: Node, writing: Writing): string {
  const { between = USUAL, addresses = (written: string) => written } = writing;
  switch (root.kind) {
    case 'number':
      return writeNumber(root.value);
    case 'text':
      return `"${root.value.replaceAll('"', '""')}"`;
    case 'logical':
      return root.value ? 'TRUE' : 'FALSE';
    case 'error':
      return root.word;
    case 'lost':
      return '#REF!';
    case 'reference': {
      const written = addressOf(root.to, writing.sheet, writing.state);
      return written === undefined ? '#REF!' : addresses(written);
    }
    case 'name': {
      const written = writing.nameOf(root.name);
      return isAddress(written) ? addresses(written) : written;
    }
    case 'nothing':
      return '';
    case 'call': {
      const args = root.args.map((arg) => writeFormula(arg, writing)).join(between.args);
      return `${writing.functionName(root.name)}(${args})`;
    }
    case 'sign': {
      const of = writeFormula(root.of, writing);
      return root.sign === '%' ? `${of}%` : `${root.sign}${of}`;
    }
    case 'joined':
      return `${writeFormula(root.left, writing)}${root.sign}${writeFormula(root.right, writing)}`;
    case 'bracket':
      return `(${writeFormula(root.of, writing)})`;
    case 'array':
      return `{${root.rows.map((row) => row.map((one) => writeFormula(one, writing)).join(between.cells)).join(between.rows)}}`;
  }
}

/** A sheet's name, each of its letters twice, and two corners; no name of a cell is longer. */
const REFERENCE = 128;

/** At least as many letters as {@link writeFormula} writes, found out without writing. */
export function lettersAtMost(root: Node): number {
  switch (root.kind) {
    case 'reference':
      return REFERENCE;
    case 'name':
      return Math.max(REFERENCE, root.name.length);
    case 'text':
      return 2 * root.value.length + 2;
    case 'call':
      return root.args.reduce((sum, arg) => sum + lettersAtMost(arg) + 1, root.name.length + 2);
    case 'array':
      return root.rows.flat().reduce((sum, one) => sum + lettersAtMost(one) + 1, 2);
    case 'joined':
      return lettersAtMost(root.left) + lettersAtMost(root.right) + root.sign.length;
    case 'sign':
    case 'bracket':
      return lettersAtMost(root.of) + 2;
    default:
      return NUMBER;
  }
}

/** `-1.7976931348623157E+308`, and any word for an error or for yes and no. */
const NUMBER = 24;

/** What stands for a name that may not be written, and what looks at the file's own sheets. */
const isAddress = (written: string): boolean => /!|^[A-Z]{1,3}\d+$/.test(written);

/** Seventeen digits give a number back to the last bit; its exponent is understood in capitals everywhere. */
export const writeNumber = (value: number): string =>
  String(value).replace('e+', 'E').replace('e', 'E');

/** The address of a cell with its sheet, which stays when the formula is copied. */
export const fixedAddress = (state: BookState, { sheet, row, column }: At): string =>
  `${writtenSheet(state.sheetName(sheet) ?? '')}!$${columnName(column)}$${row + 1}`;
