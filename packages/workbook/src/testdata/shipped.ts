import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type BookDocument, loadText, Workbook } from '../index.ts';

/** Where the built-in templates lie. */
export const TEMPLATES = join(import.meta.dirname, '../../../../templates');

/** A built-in template by its key. */
export function shipped(key: string): BookDocument {
  const loaded = loadText(readFileSync(join(TEMPLATES, `${key}.json`), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

/** Types over a named cell. */
export function enter(book: Workbook, name: string, text: string): void {
  const at = book.named(name)?.at;
  if (at === undefined) throw new Error(`no ${name}`);
  const { sheet, row, column } = at;
  const done = book.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
  if (!done.ok) throw new Error(done.says);
}

/** A workbook with other entries at named cells. */
export function typed(
  document: BookDocument,
  entries: Readonly<Record<string, string>>,
): BookDocument {
  const book = Workbook.open(document);
  for (const [name, text] of Object.entries(entries)) enter(book, name, text);
  return book.document();
}
