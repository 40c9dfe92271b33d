import { Fault } from './fault.ts';
import type { Guarded } from './guards.ts';

type Lines = [Uint32Array, Uint32Array, Uint32Array];

/** Three lines of the table of distances: hundreds of names are held against a word, and each would need its own. */
let lines: Lines = [new Uint32Array(64), new Uint32Array(64), new Uint32Array(64)];

function linesFor(width: number): Lines {
  if (lines[0].length < width) {
    lines = [new Uint32Array(width), new Uint32Array(width), new Uint32Array(width)];
  }
  return lines;
}

/**
 * Letters to insert, drop, change or swap with their neighbour to make one word the other (Damerau-Levenshtein
 * distance in which no letter is touched twice).
 */
export function editDistance(from: string, to: string): number {
  const width = to.length + 1;
  let [before, above, line] = linesFor(width);
  for (let j = 0; j < width; j += 1) above[j] = j;
  for (let i = 1; i <= from.length; i += 1) {
    const letter = from.charCodeAt(i - 1);
    let left = i;
    line[0] = i;
    for (let j = 1; j < width; j += 1) {
      const other = to.charCodeAt(j - 1);
      let least = (above[j - 1] as number) + (letter === other ? 0 : 1);
      if ((above[j] as number) + 1 < least) least = (above[j] as number) + 1;
      if (left + 1 < least) least = left + 1;
      if (i > 1 && j > 1 && letter === to.charCodeAt(j - 2) && from.charCodeAt(i - 2) === other) {
        const swapped = (before[j - 2] as number) + 1;
        if (swapped < least) least = swapped;
      }
      line[j] = least;
      left = least;
    }
    [before, above, line] = [above, line, before];
  }
  return above[to.length] as number;
}

/** A slip in the first letter is rarer than one further on. */
const OTHER_START = 0.15;
/** A word of three letters or more that a name's word begins with. */
const BEGINNING = 0.1;
/** Each word of a name that was not asked for. */
const MORE_WORDS = 0.02;
/** Two words further apart than this are not the same word misspelt. */
const NEAR = 0.4;

const wordsIn = (text: string): readonly string[] =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{Nd}]+/u)
    .filter((word) => word !== '');

/** How far one word is from another, 0 to somewhat over 1, by its length. */
function wordsApart(asked: string, known: string): number {
  if (asked === known) return 0;
  if (asked.length > 2 && known.startsWith(asked)) return BEGINNING;
  const away = editDistance(asked, known) / Math.max(asked.length, known.length);
  return away + (asked[0] === known[0] || isNumber(asked) ? 0 : OTHER_START);
}

const isNumber = (word: string): boolean => /^\d+$/.test(word);

/** What names are compared with, read once. */
interface Asked {
  readonly words: readonly string[];
  readonly joined: string;
}

function askedFor(text: string): Asked {
  // A cell can hold a novel; only the start of it can resemble a name.
  const words = wordsIn(text.slice(0, 60));
  return { words, joined: words.join('') };
}

/** How far a name is from what was asked for, word by word in any order, or all of it run together. */
function nameApart({ words, joined }: Asked, name: string): number {
  const known = wordsIn(name);
  if (words.length === 0 || known.length === 0) return 1;
  const each = words.map((word) => Math.min(...known.map((one) => wordsApart(word, one))));
  const byWords = each.reduce((all, one) => all + one, 0) / words.length;
  const extra = MORE_WORDS * Math.max(0, known.length - words.length);
  const turned = [...known].reverse();
  return Math.min(
    byWords + extra,
    wordsApart(joined, known.join('')),
    wordsApart(joined, turned.join('')),
  );
}

function sortedNames(word: string, known: readonly string[]) {
  const asked = askedFor(word);
  return known
    .map((name, place) => ({ name, place, away: nameApart(asked, name) }))
    .sort((a, b) => a.away - b.away || a.place - b.place);
}

/** The `most` known names nearest to a word, nearest first; the order given settles a tie. */
export function nearestNames(word: string, known: readonly string[], most = 3): readonly string[] {
  return sortedNames(word, known)
    .slice(0, most)
    .map(({ name }) => name);
}

/** The same, and only such as may have been meant: none where none is like it. */
export function nearNames(word: string, known: readonly string[], most = 3): readonly string[] {
  return sortedNames(word, known)
    .filter(({ away }) => away <= NEAR)
    .slice(0, most)
    .map(({ name }) => name);
}

/** Names to choose from where none is like what was asked for. */
const SOME = 3;

/** Which names may have been meant, as a sentence; where none is like it, which there are. */
export function nearHint(near: readonly string[], known: readonly string[]): string {
  const quoted = (names: readonly string[]): string => names.map((name) => `"${name}"`).join(', ');
  return near.length > 0
    ? `Nearest: ${quoted(near)}.`
    : `Nothing known is like it; there are ${quoted(known.slice(0, SOME))}${known.length > SOME ? ' and others' : ''}.`;
}

/** The fault for a text that names nothing in a table, with the nearest names that do. */
export function notKnown(
  argument: Guarded,
  asked: string,
  takes: string,
  names: readonly string[],
  problem?: string,
): Fault {
  return new Fault({
    class: 'unknown',
    argument: argument.name,
    got: asked,
    quantity: 'text',
    takes,
    hint: nearHint(nearNames(asked, names), names),
    ...(problem === undefined ? {} : { problem }),
  });
}
