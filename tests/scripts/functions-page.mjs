// Writes packages/wood/FUNCTIONS.md from the descriptions of the functions; a test compares the two.
import { writeFileSync } from 'node:fs';
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import {
  exampleResults,
  functionPages,
  STANDARD_PAGES,
  standardCall,
  standardSays,
} from '@kerfbook/workbook';

export const PAGE = new URL('../../packages/wood/FUNCTIONS.md', import.meta.url);

/** The page as it should stand. */
export function functionsPage() {
  const pages = functionPages('us');
  const results = exampleResults(pages);
  const tasks = [...new Set(pages.map(({ task }) => task))];
  const parts = tasks.map((task) => {
    const own = pages.filter((page) => page.task === task);
    return [`## ${task}`, ...own.map((page) => entry(page, results.get(page.name)))].join('\n\n');
  });
  return [
    '# Functions',
    `The ${pages.length} woodworking functions of Kerfbook: what a maker can type in a cell beside the functions every spreadsheet has. Units are those of a workbook in inches; in a metric one lengths are in millimeters, weights in kilograms, temperatures in °C and so on, and the answers agree. Written by \`node tests/scripts/functions-page.mjs\` from the descriptions in \`src\`, where they are changed.`,
    ...parts,
    ...standardParts(),
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');
}

/** The functions every spreadsheet has, by tasks. */
function standardParts() {
  const first = STANDARD_PAGES.filter(({ sameAs }) => sameAs === undefined);
  const tasks = [...new Set(first.map(({ task }) => task))];
  return [
    '## Standard functions',
    `The ${STANDARD_PAGES.length} names every spreadsheet has, in a few words; in the app they stand in the list that opens while a formula is written. Names and arguments are those of OpenDocument 1.3, part 4 (OpenFormula), where it has the function. A share is a fraction: 0.05 for 5 %. Angles are in radians.`,
    ...tasks.flatMap((task) => [
      `### ${task}`,
      first
        .filter((page) => page.task === task)
        .map(standardEntry)
        .join('\n'),
    ]),
  ];
}

/** @param {import("@kerfbook/workbook").StandardPage} page */
function standardEntry(page) {
  const also = STANDARD_PAGES.filter(({ sameAs }) => sameAs === page.name);
  const names = also.map(({ name }) => `\`${name}\``).join(', ');
  return [
    `- \`${standardCall(page)}\`${names === '' ? '' : `, also ${names}`}: ${page.answers}`,
    ...page.args.map((one) => `  - **${one.name}**: ${standardSays(one)}`),
  ].join('\n');
}

/**
 * @param {import("@kerfbook/workbook").FunctionPage} page
 * @param {string | undefined} result
 */
function entry(page, result) {
  const lines = [
    `### ${page.name}`,
    `\`${page.call}\``,
    page.answers,
    page.args.map(({ name, says }) => `- **${name}**: ${says}`).join('\n'),
    `Gives: ${page.gives}.`,
    `\`${page.example}\` is ${result}`,
    page.notes,
    `Source: ${page.source.replace(/\.$/, '')}.`,
  ];
  return lines.filter((line) => line !== undefined && line !== '').join('\n\n');
}

if (argv[1] === fileURLToPath(import.meta.url)) writeFileSync(PAGE, functionsPage());
