/** A value as a file of words and numbers holds it; nothing is `null`. */
export type Plain = number | string | boolean | null;

/**
 * Rows as comma-separated values (RFC 4180), without the line ends. Words that a spreadsheet would take for a formula
 * begin with an apostrophe, as it marks words.
 */
export function csvText(rows: readonly (readonly Plain[])[]): readonly string[] {
  return rows.map((row) => row.map(fieldOf).join(','));
}

/** Spaces before a sign are passed over by some readers, and so are letters that nobody sees. */
const LIKE_A_FORMULA = /^[\s\p{C}]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^[\t\r\n\0]/u;

function fieldOf(value: Plain): string {
  if (value === null) return '';
  if (typeof value !== 'string') return String(value);
  return quotedField(LIKE_A_FORMULA.test(value) ? `'${value}` : value);
}

/** A field as it is, within quotes where it needs them. */
export const quotedField = (text: string): string =>
  /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
