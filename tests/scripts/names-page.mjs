// Writes packages/document/NAMES.md from the table of names that other parts look for; a test compares the two.
import { writeFileSync } from 'node:fs';
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import { KNOWN_NAMES, QUANTITY_WORDS, READERS } from '@kerfbook/workbook';

export const PAGE = new URL('../../packages/document/NAMES.md', import.meta.url);

/** The page as it should stand. */
export function namesPage() {
  const all = READERS.flatMap((reader) => KNOWN_NAMES[reader].names.map(({ name }) => name));
  const parts = READERS.map((reader) => {
    const { says, names } = KNOWN_NAMES[reader];
    return `## \`${reader}\`: ${says}\n\n${list(names)}`;
  });
  return [
    '# Names that are looked for',
    `Drawings, plans and shop sheets read ${new Set(all).size} cells by their names, in any workbook. Name a cell so, and it is shown or reckoned with; each line tells what happens without one.`,
    'A template says in its file what may rely on it: `"promises": ["glue-up", "finish"]`. `kerfbook check` then reports each name that is missing, but for those that are optional, or of another quantity; a name that is there without a promise must only be of no other quantity.',
    'Written by `node tests/scripts/names-page.mjs` from `src/format/known-names.ts`, where they are changed.',
    ...parts,
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');
}

/** @param {readonly import('@kerfbook/workbook').KnownName[]} names */
function list(names) {
  return names
    .map(
      ({ name, quantity, means, without = 'Its line is left out.', optional }) =>
        `- **${name}**, ${QUANTITY_WORDS[quantity]}${optional ? ', optional' : ''}: ${means}. Without it: ${without}`,
    )
    .join('\n');
}

if (argv[1] === fileURLToPath(import.meta.url)) writeFileSync(PAGE, namesPage());
