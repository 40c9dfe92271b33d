/**
 * Formulas as they are kept: `[c2.r3]`, `[s2!$c1.$r2]:[c1.r9]`, `[c1]:[c3]`, `[.r2]:[.r4]`.
 * This file finds such references in a text; string literals and quoted sheet names are passed over.
 */

export interface KeptCorner {
  /** Id of the column. */
  readonly column?: string;
  /** Id of the row. */
  readonly row?: string;
  /** Written with `$`: it stays when the formula is copied elsewhere. */
  readonly columnFixed: boolean;
  /** The same of the row. */
  readonly rowFixed: boolean;
}

/** A reference as formulas are kept: by ids, so that it holds wherever its cells move. */
export interface KeptReference {
  /** Id of the sheet; left out, it is the formula's own. */
  readonly sheet?: string;
  /** The cell, or the first corner of a range. */
  readonly from: KeptCorner;
  /** The other corner of a range. */
  readonly to?: KeptCorner;
}

const ID = '[a-z][a-z0-9]{0,11}';
const CORNER = `(\\$?)(${ID})?(?:\\.(\\$?)(${ID}))?`;
// A lone apostrophe is no quote, and no sheet is called anything with a bracket in it.
const SCAN = new RegExp(
  `"(?:[^"]|"")*"?|'(?:[^'[\\]]|'')*'(?=[!:])|\\[(?:(${ID})!)?${CORNER}\\](?::\\[${CORNER}\\])?`,
  'g',
);

/** Replaces every kept reference in a formula; everything else stays as it is. */
export function replaceKept(
  formula: string,
  replace: (reference: KeptReference, text: string, at: number) => string,
): string {
  if (!formula.includes('[')) return formula;
  return formula.replace(SCAN, (text: string, ...found: unknown[]) => {
    if (!text.startsWith('[')) return text;
    const groups = found.slice(0, 9) as (string | undefined)[];
    const [sheet, cm = '', column, rm = '', row, cm2 = '', column2, rm2 = '', row2] = groups;
    if (column === undefined && row === undefined) return text;
    const range = text.includes(']:[');
    if (range && column2 === undefined && row2 === undefined) return text;
    const from = keptCorner(column, row, cm !== '', rm !== '');
    const to = range ? keptCorner(column2, row2, cm2 !== '', rm2 !== '') : undefined;
    const reference: KeptReference = {
      ...(sheet === undefined ? {} : { sheet }),
      from,
      ...(to === undefined ? {} : { to }),
    };
    return replace(reference, text, found[9] as number);
  });
}

/** A corner with those of its keys that it has. */
export function keptCorner(
  column: string | undefined,
  row: string | undefined,
  columnFixed: boolean,
  rowFixed: boolean,
): KeptCorner {
  if (column === undefined) {
    return row === undefined ? { columnFixed, rowFixed } : { row, columnFixed, rowFixed };
  }
  return row === undefined
    ? { column, columnFixed, rowFixed }
    : { column, row, columnFixed, rowFixed };
}

/** A reference as it stands in a kept formula: `[s2!$c1.$r2]:[c1.r9]`. */
export function keptText(reference: KeptReference): string {
  const sheet = reference.sheet === undefined ? '' : `${reference.sheet}!`;
  const first = `[${sheet}${cornerText(reference.from)}]`;
  return reference.to === undefined ? first : `${first}:[${cornerText(reference.to)}]`;
}

function cornerText({ column, row, columnFixed, rowFixed }: KeptCorner): string {
  const left = column === undefined ? '' : `${columnFixed ? '$' : ''}${column}`;
  return row === undefined ? left : `${left}.${rowFixed ? '$' : ''}${row}`;
}
