// Writes packages/wood/FUNCTIONS.md from the descriptions of the functions; a test compares the two.
import { writeFileSync } from 'node:fs';
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import { exampleResults, functionPages } from '@kerfbook/workbook';

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
    `The ${pages.length} woodworking functions of Kerfbook: what a maker can type in a cell beside the functions every spreadsheet has. Units are those of a workbook in inches; in a metric one lengths are in millimetres, weights in kilograms, temperatures in °C and so on, and the answers agree. Written by \`node tests/scripts/functions-page.mjs\` from the descriptions in \`src\`, where they are changed.`,
    ...parts,
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');
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
    `Source: ${page.source}.`,
  ];
  return lines.filter((line) => line !== undefined && line !== '').join('\n\n');
}

if (argv[1] === fileURLToPath(import.meta.url)) writeFileSync(PAGE, functionsPage());
