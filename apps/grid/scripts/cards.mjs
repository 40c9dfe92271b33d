import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { bookCard } from '@kerfbook/drawing';
import { loadText, Workbook } from '@kerfbook/workbook';

/** Where the built-in templates lie. */
const FOLDER = new URL('../../../templates/', import.meta.url);

/** The files of the built-in templates. */
export function templateFiles() {
  return readdirSync(FOLDER).map((file) => fileURLToPath(new URL(file, FOLDER)));
}

/** The cards of the built-in templates, each with the key of its template, as JSON. */
export function cardsOfTemplates() {
  const cards = readdirSync(FOLDER).map((file) => {
    const loaded = loadText(readFileSync(new URL(file, FOLDER), 'utf8'));
    if (!loaded.ok) throw new Error(`${file}: ${loaded.says}`);
    return [file.replace(/\.json$/, ''), bookCard(Workbook.open(loaded.document))];
  });
  return JSON.stringify(cards);
}
