import { KNOWN_NAMES, type KnownName, readersOf } from '@kerfbook/document';
import type { CellView, OpenWorkbook } from '../api.ts';
import { QUANTITY_WORDS } from '../quantities/words.ts';

/**
 * What is wrong with the names that a workbook promises to those who read cells by name, a sentence
 * each; names it has without promising them must at least be of no other quantity.
 */
export function promiseProblems(book: OpenWorkbook): readonly string[] {
  const { promises = [] } = book.document();
  const promised = promises.flatMap((reader) => {
    const { says, names } = KNOWN_NAMES[reader];
    return names.flatMap((known) => brokenPromise(book, says, known));
  });
  const kept: ReadonlySet<string> = new Set(promises);
  const others = book.names().flatMap(({ name }) => {
    const readers = readersOf(name);
    const [first] = readers;
    if (first === undefined || readers.some(({ reader }) => kept.has(reader))) return [];
    const cell = book.named(name);
    if (cell?.quantity === undefined) return [];
    return otherQuantity(book, cell, first.says, first.known);
  });
  const unnamed = book.results.flatMap((name) =>
    book.named(name) === undefined
      ? `${name} is among the results told first, and no cell is named so. Name the cell, or take it out of them.`
      : [],
  );
  return [...new Set([...promised, ...others, ...unnamed])];
}

function brokenPromise(book: OpenWorkbook, reader: string, known: KnownName): readonly string[] {
  const { name, means, without = 'Its line is left out.' } = known;
  const cell = book.named(name);
  if (cell === undefined) {
    if (known.optional) return [];
    const missing = `${reader} is promised, and no cell is named ${name} (${means}).`;
    return [`${capital(missing)} ${without} Name the cell, or take the promise back.`];
  }
  return otherQuantity(book, cell, reader, known);
}

function otherQuantity(
  book: OpenWorkbook,
  cell: CellView,
  reader: string,
  { name, quantity }: KnownName,
): readonly string[] {
  const where = `${book.sheet(cell.at.sheet)?.name ?? ''}!${cell.address}`;
  const takes = `${reader} takes ${name} for ${QUANTITY_WORDS[quantity]}`;
  if (cell.quantity !== quantity) {
    const is =
      cell.quantity === undefined ? 'says no quantity' : `is ${QUANTITY_WORDS[cell.quantity]}`;
    return [`${where} ${is}; ${takes}. Make it that, or name it otherwise.`];
  }
  // Words in a cell for numbers are an entry that cannot be read.
  const unread = cell.problem?.code === 'Q1';
  const words = unread || cell.value.kind === 'text' || cell.value.kind === 'logical';
  if (quantity === 'text' || !words) return [];
  return [`${where} holds words; ${takes}. Give it a number.`];
}

const capital = (sentence: string): string =>
  sentence.slice(0, 1).toUpperCase() + sentence.slice(1);
