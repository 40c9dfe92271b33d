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

/** Reads tab-separated text; quoted cells may hold tabs and line breaks. One line end at the end is none. */
export function fromTabs(text: string): Lines {
  const lines: string[][] = [];
  let line: string[] = [];
  let at = 0;
  while (at <= text.length) {
    const [cell, next] = text[at] === '"' ? quotedAt(text, at) : plainAt(text, at);
    line.push(cell);
    const end = text[next];
    at = next + 1;
    if (end === '\t') continue;
    if (end === '\r' && text[at] === '\n') at += 1;
    lines.push(line);
    line = [];
    if (end === undefined || at === text.length) break;
  }
  return lines;
}

function plainAt(text: string, from: number): readonly [string, number] {
  let end = from;
  while (end < text.length && !'\t\r\n'.includes(text[end] ?? '')) end += 1;
  return [text.slice(from, end), end];
}

/** A quoted cell; a quote that is never closed is taken as it stands. */
function quotedAt(text: string, from: number): readonly [string, number] {
  let cell = '';
  for (let at = from + 1; at < text.length; at += 1) {
    if (text[at] !== '"') cell += text[at];
    else if (text[at + 1] === '"') {
      cell += '"';
      at += 1;
    } else if (at + 1 === text.length || '\t\r\n'.includes(text[at + 1] ?? '')) {
      return [cell, at + 1];
    } else break;
  }
  return plainAt(text, from);
}

/** Cells a pasted table may span, at the most; a hostile one claims millions. */
const WIDEST_SPAN = 100;

/**
 * The first table of a piece of HTML, text only: the page that is made of it never becomes part of
 * ours, so nothing in it is loaded or run. Undefined where there is no table.
 */
export function fromTable(html: string): Lines | undefined {
  if (!/<table/i.test(html)) return undefined;
  const table = new DOMParser().parseFromString(html, 'text/html').querySelector('table');
  if (table === null) return undefined;
  const lines = [...table.rows].map((row) =>
    [...row.cells].flatMap((cell) => {
      const span = Math.max(1, Math.min(WIDEST_SPAN, cell.colSpan));
      return [textOf(cell), ...Array.from({ length: span - 1 }, () => '')];
    }),
  );
  return lines.length === 0 ? undefined : lines;
}

function textOf(cell: Element): string {
  for (const line of cell.querySelectorAll('br')) line.replaceWith('\n');
  for (const hidden of cell.querySelectorAll('script, style')) hidden.remove();
  return (cell.textContent ?? '').replaceAll('\u00a0', ' ').trim();
}
