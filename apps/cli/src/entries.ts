import type { CellView, Workbook } from '@kerfbook/workbook';
import { Misuse } from './arguments.ts';

/** `--set name=entry`, its name as the workbook spells it. */
export interface Entry {
  readonly name: string;
  readonly text: string;
}

/** An entry that was not taken. */
export interface Refusal {
  readonly cell: string;
  readonly error: string;
  readonly says: string;
}

/** @throws Misuse for a word without a sign, or a name the workbook does not have */
export function entryOf(book: Workbook, word: string): Entry {
  const sign = word.indexOf('=');
  if (sign < 1) throw new Misuse(`--set takes name=entry; it got "${word}".`);
  return { name: knownName(book, word.slice(0, sign).trim()), text: word.slice(sign + 1) };
}

/** The name as the workbook spells it. @throws Misuse for one it does not have */
export function knownName(book: Workbook, name: string): string {
  const found = book.named(name)?.name;
  if (found !== undefined) return found;
  // The engine knows which name is near; asked for this one, it says so.
  const asked = book.evaluate(`=${name}`);
  const says =
    asked.kind === 'error' && asked.error.word === '#NAME?'
      ? asked.error.says
      : `There is no cell called ${name}.`;
  throw new Misuse(says);
}

/** Types an entry as a maker would; what comes back is why it was refused. */
export function type(book: Workbook, { name, text }: Entry): Refusal[] {
  const cell = book.named(name);
  if (cell === undefined) throw new Misuse(`There is no cell called ${name}.`);
  const { sheet, row, column } = cell.at;
  const result = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  return result.ok ? [] : [{ cell: placeOf(book, cell), error: '#VALUE!', says: result.says }];
}

/** `Base!B7` */
export function placeOf(book: Workbook, cell: CellView): string {
  return `${book.sheet(cell.at.sheet)?.name ?? ''}!${cell.address}`;
}
