// Writes packages/wood/FUNCTIONS.md from the descriptions of the functions; a test compares the two.
import { writeFileSync } from 'node:fs';
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import { exampleResults, functionNames, functionPages, STANDARD_PAGES } from '@kerfbook/workbook';

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
    ...standardParts(pages),
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');
}

/**
 * The functions every spreadsheet has: those with words for makers, and the names of the others.
 * @param {readonly import("@kerfbook/workbook").FunctionPage[]} ours
 */
function standardParts(ours) {
  const told = new Set([...ours, ...STANDARD_PAGES].map(({ name }) => name));
  const others = functionNames().filter((name) => !told.has(name) && !name.startsWith('HF.'));
  return [
    '## Standard functions',
    'What every spreadsheet has, in a few words; in the app they stand in the list that opens while a formula is written.',
    STANDARD_PAGES.map(({ name, args, again, answers }) => {
      const call = args.map((one) => (one.optional ? `[${one.name}]` : one.name));
      if (again > 0) call.push('…');
      return `- \`${name}(${call.join(', ')})\`: ${answers}`;
    }).join('\n'),
    `Also known, by their usual names and arguments: ${others.sort().join(', ')}.`,
  ];
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
