// Writes packages/wood/DATA.md from the tables of the trade; a test compares the two.
import { writeFileSync } from 'node:fs';
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import { howWords } from '@kerfbook/wood';
import { TABLES } from '@kerfbook/wood/tables';

export const PAGE = new URL('../../packages/wood/DATA.md', import.meta.url);

/** The kinds of origin that are counted, as the page names them. */
const COUNTED = /** @type {const} */ ([
  ['read', ['read']],
  ['worked out from other values', ['computed']],
  ['rows of the group a wood is sold in', ['group']],
  ['from memory', ['memory', 'seen older']],
]);

/**
 * How many values were obtained in each way.
 * @param {readonly { readonly how: string }[]} values
 */
export function originsOf(values) {
  return COUNTED.map(
    ([words, hows]) =>
      /** @type {const} */ ([
        words,
        values.filter(({ how }) => hows.some((one) => one === how)).length,
      ]),
  );
}

/** The page as it should stand. */
export function dataPage() {
  const all = TABLES.flatMap(({ values }) => values);
  return [
    '# Data',
    `The ${all.length} values and rows of the tables that Kerfbook's functions look in, each with how it was obtained: ${says(all)}. "Read" was seen in a copy of the publication; "from memory" was recalled and not seen; "worked out" comes from other published values, as its note says. Written by \`node tests/scripts/data-page.mjs\` from \`src/data\`, where they are changed.`,
    'Most remembered coefficients of movement go back exactly to a total shrinkage of one decimal, as printed rows do: they are very likely the printed ones, and are marked all the same.',
    TABLES.map(({ title, values }) => `- **${title}**: ${says(values)}`).join('\n'),
    ...TABLES.map(part),
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');
}

/** @param {readonly { readonly how: string }[]} values */
const says = (values) =>
  originsOf(values)
    .filter(([, count]) => count > 0)
    .map(([words, count]) => `${count} ${words}`)
    .join(', ');

/** @param {import("@kerfbook/wood/tables").ListedTable} listed */
function part({ title, source, values }) {
  const lines = values.map(({ of, value, how, note }) =>
    [`- **${of}**: ${value}, ${howWords(how)}.`, note ?? ''].join(' ').trim(),
  );
  return [`## ${title}`, `Source: ${source}.`, lines.join('\n')].join('\n\n');
}

if (argv[1] === fileURLToPath(import.meta.url)) writeFileSync(PAGE, dataPage());
