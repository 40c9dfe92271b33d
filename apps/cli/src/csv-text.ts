import type { Plain } from './values.ts';

/**
 * Rows as comma-separated values (RFC 4180), without the line ends. Words that a spreadsheet would take for a formula
 * begin with an apostrophe, as it marks words.
 */
export function csvText(rows: readonly (readonly Plain[])[]): readonly string[] {
  return rows.map((row) => row.map(fieldOf).join(','));
}

function fieldOf(value: Plain): string {
  if (value === null) return '';
  if (typeof value !== 'string') return String(value);
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
