import { isPlace, PLACE_FORMS, type PlaceForm, placeCell } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Editing } from '../session/session.ts';
import type { Option } from './writing.ts';

/** Names of parts that the ways have as examples, two where they go by two parts. */
const EXAMPLE = /Top|Leg/;
const SECOND = / and Post/;
/** What stands between the phrases of a place. */
const BETWEEN = /[,;]/;
/** Parts that are offered; a table has a few, and more are typed. */
const MOST_NAMES = 40;

/** The phrase of a place that the caret is in: where it begins and ends in the text. */
export function phraseAt(
  text: string,
  caret: number,
): { readonly start: number; readonly end: number } {
  let start = caret;
  while (start > 0 && !BETWEEN.test(text[start - 1] ?? '')) start -= 1;
  while (start < caret && text[start] === ' ') start += 1;
  let end = caret;
  while (end < text.length && !BETWEEN.test(text[end] ?? '')) end += 1;
  return { start, end };
}

/**
 * What the phrase being written may become: the ways to place that begin like it, or where only one does, that
 * way with each part that it may go by.
 */
export function placeOptions(book: OpenWorkbook, { at, text, caret }: Editing): readonly Option[] {
  const cell = placeCell(book, at);
  if (cell === undefined) return [];
  const { start } = phraseAt(text, caret);
  const typed = phraseKey(text.slice(start, caret));
  const ways = PLACE_FORMS.map((form) => optionsOfForm(form, cell.names, typed));
  const found = ways.filter(({ length }) => length > 0);
  // A phrase that is written out needs no list, and Enter is to take the entry over.
  if (found.some((all) => all.some((one) => phraseKey(one.text) === typed.trimEnd()))) return [];
  const offered = found.length === 1 ? found.flat() : found.flatMap(([first]) => first ?? []);
  // Nor is it to change what can be read as it is, unless its maker chose from the list.
  return isPlace(text, cell.names)
    ? offered.map((option) => ({ ...option, asked: true as const }))
    : offered;
}

/** Words as they are compared while they are written: in any case, with any spacing but at the end. */
export const phraseKey = (text: string): string =>
  text.replaceAll(/\s+/g, ' ').trimStart().toLowerCase();

/** One way with each name that it may go by, as far as that begins with what is typed. */
function optionsOfForm(
  { words, means }: PlaceForm,
  names: readonly string[],
  typed: string,
): readonly Option[] {
  return named(words, names.slice(0, MOST_NAMES), typed)
    .filter((text) => phraseKey(text).startsWith(typed))
    .map((text) => ({ kind: 'place', text, says: means }));
}

/** The words of a way with names in the place of its examples, along and across where it may go either way. */
function named(words: string, names: readonly string[], typed: string): readonly string[] {
  if (!EXAMPLE.test(words)) return [words];
  // Two parts are offered once the first of them is written: all pairs would be too many.
  if (SECOND.test(words) && !typed.includes(' and')) {
    return names.length > 1 ? pairs(words, names.slice(0, 2)).slice(0, 1) : [];
  }
  const all = SECOND.test(words)
    ? pairs(words, names)
    : names.map((name) => words.replace(EXAMPLE, () => name));
  return [...all, ...all.map((text) => text.replace(/\balong\b/, 'across'))].filter(
    (text, i, both) => both.indexOf(text) === i,
  );
}

const pairs = (words: string, names: readonly string[]): readonly string[] =>
  names.flatMap((one) =>
    names
      .filter((other) => other !== one)
      .map((other) => words.replace(SECOND, () => ` and ${other}`).replace(EXAMPLE, () => one)),
  );
