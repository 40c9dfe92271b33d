import { Fault } from './fault.ts';
import type { Guarded } from './guards.ts';

/**
 * Letters to insert, drop, change or swap with their neighbour to make one word the other (Damerau-Levenshtein
 * distance in which no letter is touched twice).
 */
export function editDistance(from: string, to: string): number {
  let before: number[] = [];
  let above = Array.from({ length: to.length + 1 }, (_, i) => i);
  for (let i = 1; i <= from.length; i += 1) {
    const line = [i];
    for (let j = 1; j <= to.length; j += 1) {
      const same = from[i - 1] === to[j - 1];
      const changed = (above[j - 1] ?? 0) + (same ? 0 : 1);
      const one = Math.min(changed, (above[j] ?? 0) + 1, (line[j - 1] ?? 0) + 1);
      const swapped = i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1];
      line[j] = swapped ? Math.min(one, (before[j - 2] ?? 0) + 1) : one;
    }
    before = above;
    above = line;
  }
  return above[to.length] ?? 0;
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
