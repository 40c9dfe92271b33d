import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { loadText, Workbook } from '@kerfbook/workbook';

const FOLDER = fileURLToPath(new URL('../../templates', import.meta.url));

/** The workbooks that ship, by their file names without `.json`. */
export const TEMPLATES: readonly string[] = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.json'))
  .map((name) => name.replace(/\.json$/, ''))
  .sort();

/** One of them, opened anew. */
export function openTemplate(name: string): Workbook {
  const loaded = loadText(readFileSync(`${FOLDER}/${name}.json`, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}
