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

/** A word, and which letters it has, some taken for one another: a bit of 32 for each. */
interface Word {
  readonly text: string;
  readonly letters: number;
}

function wordOf(text: string): Word {
  let letters = 0;
  for (let i = 0; i < text.length; i += 1) letters |= 1 << (text.charCodeAt(i) & 31);
  return { text, letters };
}

function bitsOf(letters: number): number {
  let bits = 0;
  for (let left = letters; left !== 0; left &= left - 1) bits += 1;
  return bits;
}

/** What `editDistance` is at the least: each letter that only one of two words has takes a slip of its own. */
function leastDistance(from: Word, to: Word): number {
  return Math.max(
    Math.abs(from.text.length - to.text.length),
    bitsOf(from.letters & ~to.letters),
    bitsOf(to.letters & ~from.letters),
  );
}

/** The least number of slips that make one word of the other. */
export const slipsAtLeast = (from: string, to: string): number =>
  leastDistance(wordOf(from), wordOf(to));

type Distance = (from: Word, to: Word) => number;

const exactly: Distance = (from, to) => editDistance(from.text, to.text);

/** How far one word is from another, 0 to somewhat over 1, by its length. */
function wordsApart(asked: Word, known: Word, distance: Distance): number {
  if (asked.text === known.text) return 0;
  if (asked.text.length > 2 && known.text.startsWith(asked.text)) return BEGINNING;
  const away = distance(asked, known) / Math.max(asked.text.length, known.text.length);
  return away + (asked.text[0] === known.text[0] || isNumber(asked.text) ? 0 : OTHER_START);
}

const isNumber = (word: string): boolean => /^\d+$/.test(word);

/** A text as it is compared: its words, all run together, and those of the last first. */
interface Read {
  readonly words: readonly Word[];
  readonly joined: Word;
  readonly turned: Word;
}

function read(text: string): Read {
  const words = wordsIn(text);
  return {
    words: words.map(wordOf),
    joined: wordOf(words.join('')),
    turned: wordOf([...words].reverse().join('')),
  };
}

/** Names that were compared before: the same hundreds are, whatever is asked for. */
const namesRead = new Map<string, Read>();
const MOST_NAMES = 5000;

function nameRead(name: string): Read {
  const known = namesRead.get(name);
  if (known !== undefined) return known;
  if (namesRead.size >= MOST_NAMES) namesRead.clear();
  const now = read(name);
  namesRead.set(name, now);
  return now;
}

/** How far a name is from what was asked for, word by word in any order, or all of it run together. */
function nameApart({ words, joined }: Read, known: Read, distance: Distance): number {
  if (words.length === 0 || known.words.length === 0) return 1;
  let all = 0;
  for (const word of words) {
    let least = Number.POSITIVE_INFINITY;
    for (const one of known.words) least = Math.min(least, wordsApart(word, one, distance));
    all += least;
  }
  const extra = MORE_WORDS * Math.max(0, known.words.length - words.length);
  return Math.min(
    all / words.length + extra,
    wordsApart(joined, known.joined, distance),
    wordsApart(joined, known.turned, distance),
  );
}

/** Known names no farther from a word than that, nearest first. */
function sortedNames(word: string, known: readonly string[], within: number) {
  // A cell can hold a novel; only the start of it can resemble a name.
  const asked = read(word.slice(0, 60));
  const near: { readonly name: string; readonly place: number; readonly away: number }[] = [];
  for (const [place, name] of known.entries()) {
    const one = nameRead(name);
    // Most names have other letters: that is seen sooner than how far they are.
    if (nameApart(asked, one, leastDistance) > within) continue;
    const away = nameApart(asked, one, exactly);
    if (away <= within) near.push({ name, place, away });
  }
  return near.sort((a, b) => a.away - b.away || a.place - b.place);
}

/** The `most` known names nearest to a word, nearest first; the order given settles a tie. */
export function nearestNames(word: string, known: readonly string[], most = 3): readonly string[] {
  return sortedNames(word, known, Number.POSITIVE_INFINITY)
    .slice(0, most)
    .map(({ name }) => name);
}

/** The same, and only such as may have been meant: none where none is like it. */
export function nearNames(word: string, known: readonly string[], most = 3): readonly string[] {
  return sortedNames(word, known, NEAR)
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
