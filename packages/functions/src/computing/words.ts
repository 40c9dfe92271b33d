import { NotLoaded } from '../lazy.ts';
import { formatNumber, formatPlaces } from './formats.ts';
import { Matrix } from './matrix.ts';
import { repeated } from './repeat.ts';
import { SAYS } from './says.ts';
import {
  type Aids,
  any,
  type Computing,
  either,
  type Family,
  type Given,
  logical,
  number,
  text,
} from './takes.ts';
import { Failure, fail, numberIn, toText, type Value } from './values.ts';
import { Wildcards } from './wildcards.ts';

const from = (leftOut: number) => ({ as: 'number', leftOut }) as const;
const ofText = (run: (words: string) => Value): Computing => ({ takes: [text], run });

function numberRead(value: Value): Value {
  if (typeof value === 'number' || value instanceof Failure) return value;
  const refused = fail('VALUE', SAYS.notANumber);
  if (typeof value !== 'string') return refused;
  const read = (words: string): number | undefined =>
    words.trim() === '' ? undefined : numberIn(words.trim());
  const bracketed = /^\(([^()]+)\)$/.exec(value.trim())?.[1];
  const negative = bracketed === undefined ? undefined : read(bracketed);
  return negative === undefined ? (read(value) ?? refused) : -negative;
}

/** Without spaces at both ends, and of several between words one. */
function trimmed(words: string): string {
  let [start, end] = [0, words.length];
  while (words[start] === ' ') start += 1;
  while (end > start && words[end - 1] === ' ') end -= 1;
  return words.slice(start, end).replace(/ +/g, ' ');
}

function replaced(words: string, start: number, count: number, by: string): Value {
  if (start < 1) return fail('VALUE', SAYS.belowOne);
  if (count < 0) return fail('VALUE', SAYS.negativeLength);
  return words.substring(0, start - 1) + by + words.substring(start + count - 1);
}

/** Words with others in the place of some; `which` of them, all of them without. */
export function substituted(
  words: string,
  old: string,
  by: string,
  which?: number,
): string | Failure {
  if (which === undefined) return words.replaceAll(old, by);
  if (which < 1) return fail('VALUE', SAYS.belowOne);
  if (!Number.isInteger(which)) return words;
  if (old === '') return by + words;
  let at = -old.length;
  for (let i = 0; i < which; i += 1) {
    at = words.indexOf(old, at + old.length);
    if (at < 0) return words;
  }
  return words.slice(0, at) + by + words.slice(at + old.length);
}

function found(part: string, words: string, start: number): Value {
  if (start < 1 || start > words.length) return fail('VALUE', SAYS.indexBounds);
  const at = words.substring(start - 1).indexOf(part) + start;
  return at > 0 ? at : fail('VALUE', SAYS.patternNotFound);
}

const searched =
  (spend: Aids['spend']) =>
  (given: string, words: string, start: number): Value => {
    if (start < 1 || start > words.length) return fail('VALUE', SAYS.lengthBounds);
    const pattern = given.toLowerCase();
    const rest = words.substring(start - 1).toLowerCase();
    const at = /[*?]/.test(pattern)
      ? (new Wildcards(pattern, false, spend).exec(rest)?.index ?? -1)
      : rest.indexOf(pattern);
    return at > -1 ? at + start : fail('VALUE', SAYS.patternNotFound);
  };

/** Words of one argument, cell by cell; the first error instead. */
function textsOf(given: Given): string[] | Failure {
  const texts: string[] = [];
  for (const value of given instanceof Matrix ? given.cells : [given]) {
    const words = toText(value);
    if (words instanceof Failure) return words;
    texts.push(words);
  }
  return texts;
}

function joined(by: Given, skips: boolean, ...args: Given[]): Value {
  const between = textsOf(by);
  if (between instanceof Failure) return between;
  const texts: string[] = [];
  for (const arg of args) {
    const words = textsOf(arg);
    if (words instanceof Failure) return words;
    for (const one of words) if (!skips || one !== '') texts.push(one);
  }
  let all = texts[0] ?? '';
  for (let i = 1; i < texts.length; i += 1) {
    all += (between[(i - 1) % between.length] ?? '') + (texts[i] ?? '');
  }
  return all.length > 32_767 ? fail('VALUE', SAYS.longResult) : all;
}

const written =
  (loading: string) =>
  (value: number, code: string): Value => {
    try {
      return formatNumber(value, code) ?? formatPlaces(value, code);
    } catch (reason) {
      if (reason instanceof NotLoaded) return fail('ERROR', loading);
      throw reason;
    }
  };

const repeatedIn =
  ({ longest, tooLong, outside }: Aids) =>
  (words: string, times: number): Value => {
    const result = repeated(words, times, longest);
    if (typeof result === 'object') return result.words;
    return fail('VALUE', result === 'negative' ? outside : tooLong);
  };

const letter =
  (below: number, make: (code: number) => string) =>
  (code: number): Value =>
    code < 1 || code >= below ? fail('VALUE', SAYS.character) : make(Math.trunc(code));

const codeOf =
  (read: (words: string) => number | undefined) =>
  (words: string): Value =>
    words === '' ? fail('VALUE', SAYS.emptyText) : (read(words) ?? fail('VALUE', SAYS.emptyText));

const FIXED = { both: 1, row: 2, column: 3, none: 4 } as const;

/** The letters of a column, counted from 0. */
function lettersOf(column: number): string {
  let letters = '';
  for (let rest = column; rest >= 0; rest = Math.floor(rest / 26) - 1) {
    letters = String.fromCharCode((rest % 26) + 65) + letters;
  }
  return letters;
}

function addressed(
  row: number,
  column: number,
  fixed: number,
  inLetters: boolean,
  sheet: string | undefined,
): Value {
  const needsRow = inLetters || fixed === FIXED.both || fixed === FIXED.row;
  const needsColumn = inLetters || fixed === FIXED.both || fixed === FIXED.column;
  if ((needsRow && row < 1) || (needsColumn && column < 1)) return fail('VALUE', SAYS.belowOne);
  const on = sheet === undefined ? '' : `${sheet}!`;
  const rowFixed = fixed !== FIXED.column && fixed !== FIXED.none;
  const columnFixed = fixed !== FIXED.row && fixed !== FIXED.none;
  if (inLetters) {
    return `${on}${columnFixed ? '$' : ''}${lettersOf(column - 1)}${rowFixed ? '$' : ''}${row}`;
  }
  const part = (sign: string, place: number, isFixed: boolean): string => {
    if (isFixed) return `${sign}${place}`;
    return place === 0 ? sign : `${sign}[${place}]`;
  };
  return `${on}${part('R', row, rowFixed)}${part('C', column, columnFixed)}`;
}

/** What is made of words, or makes words. */
export const wordFamily = (aids: Aids): Family => ({
  LEN: ofText((words) => words.length),
  UPPER: ofText((words) => words.toUpperCase()),
  LOWER: ofText((words) => words.toLowerCase()),
  PROPER: ofText((words) =>
    words.replace(
      /\p{L}+/gu,
      (word) => word.charAt(0).toUpperCase() + word.substring(1).toLowerCase(),
    ),
  ),
  TRIM: ofText(trimmed),
  CLEAN: ofText((words) => [...words].filter((one) => one > '\u001f').join('')),
  EXACT: { takes: [text, text], run: (a: string, b: string) => a === b },
  CONCATENATE: {
    takes: [text],
    again: 1,
    spread: true,
    run: (...words: string[]) => words.join(''),
  },
  TEXTJOIN: { takes: [either, logical, either], again: 1, run: joined },
  LEFT: {
    takes: [text, from(1)],
    run: (words: string, count: number) =>
      count < 0 ? fail('VALUE', SAYS.negativeLength) : words.slice(0, count),
  },
  RIGHT: {
    takes: [text, from(1)],
    run: (words: string, count: number) => {
      if (count < 0) return fail('VALUE', SAYS.negativeLength);
      return count === 0 ? '' : words.slice(-count);
    },
  },
  MID: {
    takes: [text, number, number],
    run: (words: string, start: number, count: number) => {
      if (start < 1) return fail('VALUE', SAYS.belowOne);
      if (count < 0) return fail('VALUE', SAYS.negativeLength);
      return words.substring(start - 1, start + count - 1);
    },
  },
  REPLACE: { takes: [text, number, number, text], run: replaced },
  SUBSTITUTE: {
    takes: [text, text, text, { as: 'number', optional: true }],
    run: substituted,
  },
  FIND: { takes: [text, text, from(1)], run: found },
  SEARCH: { takes: [text, text, from(1)], run: searched(aids.spend) },
  REPT: { takes: [text, number], run: repeatedIn(aids) },
  TEXT: { takes: [number, text], run: written(aids.loading) },
  VALUE: { takes: [any], run: numberRead },
  CHAR: { takes: [number], run: letter(256, String.fromCharCode) },
  UNICHAR: { takes: [number], run: letter(1_114_112, String.fromCodePoint) },
  CODE: ofText(codeOf((words) => words.charCodeAt(0))),
  UNICODE: ofText(codeOf((words) => words.codePointAt(0))),
  HYPERLINK: {
    takes: [text, { as: 'text', optional: true }],
    run: (url: string, label: string | undefined) => label ?? url,
  },
  ADDRESS: {
    takes: [
      number,
      number,
      { as: 'number', leftOut: 1, emptyIsLeftOut: true, least: 1, most: 4 },
      { ...logical, leftOut: true, emptyIsLeftOut: true },
      { ...text, optional: true },
    ],
    run: addressed,
  },
  ISBINARY: ofText((words) => /^[01]{1,10}$/.test(words)),
});
