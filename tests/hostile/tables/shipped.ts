import { readFileSync } from 'node:fs';
import { type BookDocument, loadText } from '@kerfbook/document';

/** The dining table as it ships. @throws Error where its file cannot be read */
export function shippedTable(): BookDocument {
  const file = new URL('../../../templates/dining-table.json', import.meta.url);
  const loaded = loadText(readFileSync(file, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}
