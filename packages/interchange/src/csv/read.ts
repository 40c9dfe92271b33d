import { LIMITS } from '@kerfbook/document';
import type { UnitSystem } from '@kerfbook/wood';
import { type DecimalMark, decimalMarksIn, readEntry, withDecimalPoint } from '@kerfbook/workbook';
import { type CellIn, type ComingIn, MOST_CELLS, type ToldIn } from '../taking/coming-in.ts';
import { Unreadable } from '../unreadable.ts';

const MB = 1024 * 1024;
const MOST_BYTES = 20 * MB;
/** Signs that stand between fields, in the order in which they are thought of. */
const BETWEEN = [',', ';', '\t', '|'] as const;

/**
 * Reads rows with signs between their fields (RFC 4180, and its kin with semicolons or tabs). What begins like a
 * formula stays words: whoever wrote the file may be anyone.
 * @throws Unreadable with the sentence
 */
export function readCsvFile(bytes: Uint8Array, name: string, units: UnitSystem = 'us'): ComingIn {
  if (bytes.length > MOST_BYTES) {
    throw new Unreadable(
      `The file has ${Math.ceil(bytes.length / MB)} MB; ${MOST_BYTES / MB} MB is the most that is read.`,
    );
  }
  const text = decoded(bytes);
  if (text.includes('\0')) throw new Unreadable('The file is no text: it has zero bytes in it.');
  const between = betweenIn(text);
  const told: ToldIn[] = [];
  const fields = fieldsOf(text, between);
  const mark = markIn(
    fields.map(({ text: one }) => one),
    between,
  );
  let beyond = 0;
  const cells: CellIn[] = [];
  for (const { row, column, text: field } of fields) {
    if (field === '') continue;
    if (row >= LIMITS.rows || column >= LIMITS.columns) {
      beyond += 1;
      continue;
    }
    if (cells.length >= MOST_CELLS) {
      throw new Unreadable(
        `The file has more than ${MOST_CELLS.toLocaleString('en-US')} fields in use; it is not opened.`,
      );
    }
    cells.push({ row, column, ...heldBy(field, mark, units) });
  }
  if (beyond > 0) {
    told.push({
      kind: 'beyond',
      of: name,
      says: `${beyond} fields stand beyond row ${LIMITS.rows.toLocaleString('en-US')} or column ZZ, where a sheet ends here; they are left out.`,
    });
  }
  const sheet = {
    name,
    isHidden: false,
    cells,
    columns: [],
    rows: [],
    frozen: { rows: 0, columns: 0 },
  };
  return { sheets: [sheet], names: [], isOurs: false, told };
}

function decoded(bytes: Uint8Array): string {
  const [first, second] = bytes;
  const kind =
    first === 0xff && second === 0xfe
      ? 'utf-16le'
      : first === 0xfe && second === 0xff
        ? 'utf-16be'
        : 'utf-8';
  try {
    return new TextDecoder(kind, { fatal: true }).decode(bytes);
  } catch {
    // What is not UTF-8 was mostly written by a program of Western Europe or America; every byte is a letter there.
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

/** The sign that stands between fields: the one that cuts most of the first lines into the same number of them. */
function betweenIn(text: string): string {
  const lines = text
    .slice(0, 20_000)
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '')
    .slice(0, 50);
  let best = { sign: ',', score: 0 };
  for (const sign of BETWEEN) {
    const counts = lines.map(
      (line) => line.replaceAll(/"(?:[^"]|"")*"/g, '').split(sign).length - 1,
    );
    const most = counts.filter((count) => count > 0 && count === counts[0]).length;
    const score = most * 1_000 + counts.reduce((sum, count) => sum + Math.min(1, count), 0);
    if (counts.some((count) => count > 0) && score > best.score) best = { sign, score };
  }
  return best.sign;
}

interface Field {
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

/** Fields in the order of the file; one within quotes may hold signs, quotes (twice) and line ends. */
function fieldsOf(text: string, between: string): readonly Field[] {
  const found: Field[] = [];
  let [row, column, at] = [0, 0, 0];
  while (at < text.length) {
    let field = '';
    if (text[at] === '"') {
      let end = at + 1;
      for (;;) {
        const quote = text.indexOf('"', end);
        if (quote < 0) {
          field += text.slice(at + 1).replaceAll('""', '"');
          at = text.length;
          break;
        }
        if (text[quote + 1] === '"') {
          end = quote + 2;
          continue;
        }
        field += text.slice(at + 1, quote).replaceAll('""', '"');
        at = quote + 1;
        break;
      }
    }
    let end = at;
    while (end < text.length && text[end] !== between && text[end] !== '\n' && text[end] !== '\r')
      end += 1;
    field += text.slice(at, end);
    found.push({ row, column, text: field.trim() });
    at = end + 1;
    if (text[end] === between) column += 1;
    else {
      if (text[end] === '\r' && text[end + 1] === '\n') at += 1;
      row += 1;
      column = 0;
    }
  }
  return found;
}

/** Which sign stands before decimals, by what can be meant one way only; semicolons speak for a comma. */
function markIn(texts: readonly string[], between: string): DecimalMark {
  let [points, commas] = [0, 0];
  for (const text of texts) {
    const found = decimalMarksIn(text);
    if (found === 'point') points += 1;
    else if (found === 'comma') commas += 1;
  }
  if (points === commas) return between === ';' ? 'comma' : 'point';
  return commas > points ? 'comma' : 'point';
}

/** An apostrophe marks words that would look like a formula; ours are written so. */
const MARKED = /^'(?=[=+\-@\t\r])/;

function heldBy(
  field: string,
  mark: DecimalMark,
  units: UnitSystem,
): Pick<CellIn, 'value' | 'typed' | 'format'> {
  if (MARKED.test(field)) return { value: { kind: 'text', text: field.slice(1) } };
  if (field.startsWith('=')) return { value: { kind: 'text', text: field } };
  const text = mark === 'comma' ? withDecimalPoint(field) : field;
  const read = readEntry(text, { system: units, currency: units === 'us' ? 'USD' : 'EUR' });
  if (read.kind !== 'value') return { value: { kind: 'text', text: field } };
  const { value, typed, quantity } = read;
  if (typeof value === 'boolean') return { value: { kind: 'logical', logical: value } };
  if (typeof value === 'string') return { value: { kind: 'text', text: value } };
  const date = quantity === 'date' ? { format: { kind: 'date' as const } } : {};
  const money = quantity === 'money' ? { format: { kind: 'money' as const } } : {};
  return {
    value: { kind: 'number', number: value },
    ...(typed === undefined ? {} : { typed }),
    ...date,
    ...money,
  };
}
