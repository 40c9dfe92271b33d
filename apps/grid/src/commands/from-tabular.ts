import { LIMITS } from '@kerfbook/workbook';
import type { Lines } from './tabular.ts';

/**
 * Reads tab-separated text; quoted cells may hold tabs and line breaks. One line end at the end is none.
 * What has more than `most` cells is read until it has, and no further.
 */
export function fromTabs(text: string, most = Number.POSITIVE_INFINITY): Lines {
  const lines: string[][] = [];
  let line: string[] = [];
  let count = 0;
  let at = 0;
  while (at <= text.length) {
    const [cell, next] = text[at] === '"' ? quotedAt(text, at) : plainAt(text, at);
    line.push(cell);
    count += 1;
    if (count > most) return [...lines, line];
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

/** Columns that a cell of a pasted table may span, at the most; a hostile one claims millions. */
const WIDEST_SPAN = 100;

/**
 * The first table of a piece of HTML, text only: the page that is made of it never becomes part of
 * ours, so nothing in it is loaded or run. Undefined where there is no table. What has more than `most`
 * cells, or more columns than a sheet, is read until it has, and no further.
 */
export function fromTable(html: string, most = Number.POSITIVE_INFINITY): Lines | undefined {
  if (!/<table/i.test(html)) return undefined;
  const table = new DOMParser().parseFromString(html, 'text/html').querySelector('table');
  if (table === null) return undefined;
  const lines: string[][] = [];
  /** For each column, how many more rows a cell from above reaches over. */
  const over: number[] = [];
  let count = 0;
  // Taken out of the page's own list, which is counted anew with every line break that is replaced.
  for (const row of [...table.rows]) {
    const line = lineOf(row, over, most - count);
    lines.push(line);
    count += Math.max(1, line.length);
    if (count > most || line.length > LIMITS.columns) break;
  }
  return lines.length === 0 ? undefined : lines;
}

function lineOf(row: HTMLTableRowElement, over: number[], most: number): string[] {
  const line: string[] = [];
  const passCovered = (): void => {
    for (let left = over[line.length] ?? 0; left > 0; left = over[line.length] ?? 0) {
      over[line.length] = left - 1;
      line.push('');
    }
  };
  for (const cell of [...row.cells]) {
    passCovered();
    const wide = Math.max(1, Math.min(WIDEST_SPAN, cell.colSpan));
    for (let i = 0; i < wide; i += 1) {
      over[line.length] = Math.max(1, cell.rowSpan) - 1;
      line.push(i === 0 ? textOf(cell) : '');
    }
    if (line.length > most) return line;
  }
  passCovered();
  for (let column = line.length; column < over.length; column += 1) {
    over[column] = Math.max(0, (over[column] ?? 0) - 1);
  }
  return line;
}

function textOf(cell: Element): string {
  for (const line of cell.querySelectorAll('br')) line.replaceWith('\n');
  for (const hidden of cell.querySelectorAll('script, style')) hidden.remove();
  return (cell.textContent ?? '').replaceAll('\u00a0', ' ').trim();
}
