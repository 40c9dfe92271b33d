import { plainText } from '../quantities/numbers.ts';

/** More than a list of parts has. */
export const MOST_LETTERS = 200_000;
export const MOST_LINES = 1_000;
/** No line that a maker writes is that long; reading it as one would only take time. */
export const LONGEST_LINE = 300;

/** A line of a text that was pasted. */
export interface PlainLine {
  /** Counted from 1. */
  readonly line: number;
  /** As it stands, without what cannot be shown. */
  readonly text: string;
  /** Its columns, as far as something parts them; tabs are kept until then. */
  readonly fields: readonly string[];
  /** With every dash, prime and fraction in one form. */
  readonly plain: string;
}

/** Marks of direction, spaces without width, controls: nothing that is read. */
const UNSEEN =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/g;

/** The lines of a text that hold anything; too long ones are cut to be shown, and marked by having no fields. */
export function plainLines(text: string): readonly PlainLine[] {
  const points = decimalPoints(text);
  return text.split(/\r\n|\r|\n|\u2028|\u2029/).flatMap((whole, i): readonly PlainLine[] => {
    if (whole.length > LONGEST_LINE) {
      const shown = whole.slice(0, 60).replace(UNSEEN, '').trim();
      return [{ line: i + 1, text: `${shown} …`, fields: [], plain: '' }];
    }
    const seen = whole.replace(UNSEEN, '');
    const shown = seen.trim();
    if (shown === '') return [];
    const plain = (some: string): string => apart(plainText(points(some)));
    const fields = fieldsOf(seen).map(plain);
    return [{ line: i + 1, text: shown.replace(/\s+/g, ' '), fields, plain: plain(shown) }];
  });
}

/** `1800mmx900mm`: a unit and the x after it are two. */
const apart = (plain: string): string =>
  plain.replace(/(\d ?)(mm|cm|m|in|inch|ft|["'])[x×](?= ?[\d.])/gi, '$1$2 x ');

/** What parts the columns of a line: a tab, a semicolon, a bar, commas around numbers, or two spaces and more. */
function fieldsOf(line: string): readonly string[] {
  if (line.includes('\t')) return line.replace(/[\n\r]/g, '').split('\t');
  if (line.includes('|')) return line.replace(/^\s*\||\|\s*$/g, '').split('|');
  if (line.includes(';')) return line.split(';');
  const commas = splitAtCommas(line);
  if (commas !== undefined) return commas;
  const spaced = line.trim().split(/ {2,}/);
  return spaced.length >= 4 ? spaced : [line];
}

/** Columns with commas between: three fields or more that are sizes or counts, or heads. */
function splitAtCommas(line: string): readonly string[] | undefined {
  const fields = line.split(',').map((field) => field.trim().replace(/^"(.*)"$/, '$1'));
  if (fields.length < 4 || /\d\s*[x×]\s*\d/i.test(line)) return undefined;
  const numbers = fields.filter((field) => /^[\d.][\d./ -]*(?:"|''|mm|cm|in)?$/.test(field));
  const words = fields.filter((field) => /^[a-z][a-z .()#]*$/i.test(field));
  return numbers.length >= 3 || words.length === fields.length ? fields : undefined;
}

/** A comma before one or two decimals, and a point before three digits, where the list writes decimals with a comma. */
function decimalPoints(text: string): (line: string) => string {
  const head = text.slice(0, MOST_LETTERS);
  const commas = /\d,\d{1,2}(?!\d)(?!,)/.test(head) && !/\d\.\d{1,2}(?!\d)/.test(head);
  return (line) => {
    const points = commas ? line.replace(/(\d)\.(\d{3})(?!\d)/g, '$1$2') : line;
    return points.replace(
      commas ? /(\d),(\d{1,3})(?![\d,])/g : /(\d),(\d{1,2})(?![\d,])/g,
      '$1.$2',
    );
  };
}
