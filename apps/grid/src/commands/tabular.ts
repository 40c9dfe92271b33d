/** Cells on their way from and to other programs: lines of texts. */
export type Lines = readonly (readonly string[])[];

/** Tab-separated lines; what holds a tab, a quote or a line break is quoted (after RFC 4180). */
export function toTabs(lines: Lines): string {
  const quoted = (text: string): string =>
    /[\t\r\n"]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  return lines.map((line) => line.map(quoted).join('\t')).join('\r\n');
}

/** Signs with which other programs begin a formula, also as wide letters; and what they skip before. */
const BEGINS_FORMULA = /^(?:\s*[=+\-@\uff1d\uff0b\uff0d\uff20]|[\t\r\n])/;

/**
 * Words as other programs get them. What they would take for a formula goes with an apostrophe before
 * it, which makes it words there as here: who wrote it is not known, and it could call a program or send
 * what is beside it elsewhere.
 */
export const asWordsElsewhere = (text: string): string =>
  BEGINS_FORMULA.test(text) ? `'${text}` : text;

export function toTable(lines: Lines): string {
  const cell = (text: string): string => `<td>${escaped(text).replaceAll('\n', '<br>')}</td>`;
  const rows = lines.map((line) => `<tr>${line.map(cell).join('')}</tr>`);
  return `<table>${rows.join('')}</table>`;
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
