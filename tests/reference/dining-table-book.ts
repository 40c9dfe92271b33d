import { readFileSync } from 'node:fs';
import { type CheckState, loadText, Workbook } from '@kerfbook/workbook';

const text = readFileSync(new URL('../../templates/dining-table.json', import.meta.url), 'utf8');

/** The shipped dining table with other entries in named cells. */
export function tableWith(entries: Readonly<Record<string, string>>): Workbook {
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(loaded.says);
  return enterAll(Workbook.open(loaded.document), entries);
}

/** The same workbook after entries in named cells. */
export function enterAll(book: Workbook, entries: Readonly<Record<string, string>>): Workbook {
  for (const [name, entry] of Object.entries(entries)) {
    const at = book.find(name);
    if (at === undefined) throw new Error(`no cell ${name}`);
    const { sheet, row, column } = at;
    const done = book.apply({ do: 'enter', sheet, cells: [{ row, column, text: entry }] });
    if (!done.ok) throw new Error(done.says);
  }
  return book;
}

/** The number a named cell comes to. */
export function numberIn(book: Workbook, name: string): number {
  const value = book.named(name)?.value;
  if (value?.kind === 'number') return value.number;
  throw new Error(`${name} is ${value?.kind === 'error' ? value.error.says : value?.kind}`);
}

/** A check of the template by its id. */
export function checkOf(book: Workbook, id: string): CheckState | undefined {
  return book.checks().find((check) => check.id === id);
}
