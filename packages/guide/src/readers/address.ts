import type { ReaderBook } from '@kerfbook/workbook/reader-book';
import type { SayWord } from './reader-words.ts';

/** What in an address says which units the sizes in it are in. */
const UNITS = 'units';

const isUnits = (word: string): word is 'us' | 'metric' => word === 'us' || word === 'metric';

/** The inputs that readers may change, by their names. */
export const openedNames = (book: ReaderBook): readonly string[] =>
  (book.head.guide?.inputs ?? []).filter((name) => book.named(name) !== undefined);

/** What an address says of the inputs as they are now: `top_length=96&species=white+oak`. */
export function addressFor(book: ReaderBook): string {
  const said = new URLSearchParams();
  for (const name of openedNames(book)) {
    const cell = book.named(name);
    if (cell !== undefined) said.set(name, cell.entry);
  }
  said.set(UNITS, book.units);
  return `#${said.toString()}`;
}

/**
 * Sets a workbook to what an address says.
 * @returns a sentence for each part of it that was not taken
 */
export function takeAddress(book: ReaderBook, address: string, say: SayWord): readonly string[] {
  const said = [...new URLSearchParams(address.replace(/^#/, ''))];
  const refused: string[] = [];
  const opened = new Map(openedNames(book).map((name) => [name.toLowerCase(), name]));
  for (const [name, value] of said) {
    if (name === UNITS && isUnits(value)) book.turnTo(value);
  }
  for (const [name, value] of said) {
    if (name === UNITS && isUnits(value)) continue;
    const cell = book.named(opened.get(name.toLowerCase()) ?? '');
    if (cell === undefined) {
      const says = 'This plan has nothing called “{name}” that can be changed.';
      refused.push(say(says, { name: name.slice(0, 60) }));
      continue;
    }
    const refusal = book.enter(cell.at, value);
    if (refusal !== undefined) refused.push(`${book.labelOf(cell.at)}: ${refusal.says}`);
  }
  return refused;
}

/** Whether an address is about sizes: others lead to a place in the page. */
export const speaksOfSizes = (address: string): boolean => address.includes('=');
