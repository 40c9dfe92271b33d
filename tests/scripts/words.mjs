import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import { filesUnder } from './files.mjs';
import { shownTexts } from './shown-words.mjs';

/**
 * The words a maker is not shown, and what we say instead. A text is what stands between the marks of a page, a
 * string of a source that a maker may see, or a value, name, remark or sentence of a template.
 */

/** @typedef {import('./shown-words.mjs').ShownText} ShownText */
/**
 * What is not said, and what is said instead; the spelling of one word alone is its code's own as a rule.
 * @typedef {readonly [not: RegExp, say: string, among?: 'among others']} Rule
 */

/** @type {readonly Rule[]} */
export const RULES = [
  [/\bstaves?\b/i, 'boards'],
  [/\bmoved apart\b/i, 'exploded'],
  [/^take away\b/i, 'remove'],
  [/\bput away\b/i, 'dismiss'],
  [/^leave it\.?$/i, 'cancel'],
  [/^do so\.?$/i, 'the verb itself: "Delete 3 rows"'],
  [/^as it was\.?$/i, 'reset'],
  [/\bside table\b/i, 'beside the grid, or nothing'],
  [/\bsave as mine\b|\btemplate of mine\b/i, 'save as my template'],
  [/what it is and how it looks/i, 'format'],
  [/^(?:take care|fine|cannot tell)$/i, "warning, OK, can't tell"],
  [/\d (?:take care|fine|cannot tell)\b/i, "warnings, OK, can't tell"],
  [/\bkeep this state\b/i, 'save a version'],
  [/\bkept by itself\b/i, 'autosaved'],
  [/\bgo on here\b/i, 'edit here'],
  [/\btab only reads\b/i, 'view only'],
  [/\bbegun empty\b/i, 'blank'],
  [/\b(?:template|workbook)s? that ships?\b/i, 'built in'],
  [/^from above$/i, 'top'],
  [/^from the (?:side|end)$/i, 'front, end'],
  [/^(?:nearer|farther|all of it)$/i, 'zoom in, zoom out, fit'],
  [/^keep .+ in view$|^let .+ scroll$/i, 'pin, unpin'],
  [/\bon its side\b/i, 'landscape'],
  [/^at the bench$/i, 'bench list'],
  [/\bwhat comes of it\b/i, 'results'],
  [/\bbehind the air\b/i, 'lag behind the room'],
  [/\ba place at the table\b/i, 'price per seat'],
  [/^Empty$/, 'clear'],
  [/\blift the override\b/i, 'restore the formula'],
  [/\b(?:milli|centi|kilo)?metres?\b(?! ?\|)/i, 'the spelling of the United States: millimeters'],
  [/\bcentre\b/i, 'center', 'among others'],
  [/\blabour\b/i, 'labor'],
  [/\bcolours?\b/i, 'color', 'among others'],
  [/\bvapours?\b/i, 'vapor'],
  [/\blicences?\b/i, 'license', 'among others'],
  [/\bmark-up\b/i, 'markup'],
  [/\bneighbour/i, 'neighbor', 'among others'],
  [/\b(?:glue|it) rests$|\bglue rests?\b/i, 'the glue sets'],
  [/, together$/i, 'in all, total'],
  [/\b(?:do|does) not suffice\b/i, 'not enough'],
  [/\bis gone since\b/i, 'is gone'],
  [/\bresults? moved\b/i, 'results changed'],
];

/**
 * Places where such a word has to stand, each with why.
 * @type {Readonly<Record<string, string>>}
 */
const LEFT = {
  'packages/document/src/loading/migrate.ts': 'tells what was renamed, by its former name',
  'packages/document/src/formula/former.ts': 'knows former names',
  'packages/drawing/src/columns.ts': 'knows former heads',
  'packages/workbook/src/quantities/units.ts': 'reads units as people spell them',
};

/** The strings of a template that a maker reads. @param {string} root @param {string} file @returns {ShownText[]} */
function templateTexts(root, file) {
  return readFileSync(join(root, file), 'utf8')
    .split('\n')
    .flatMap((line, i) =>
      [...line.matchAll(/"(?:value|says|name|about|title|remark)": "((?:[^"\\]|\\.)*)"/g)].map(
        ([, text = '']) => ({ file, line: i + 1, text }),
      ),
    );
}

/** Every text under a root that a maker may see. @param {string} root @returns {ShownText[]} */
export function allShown(root) {
  const files = ['apps', 'packages', 'templates'].flatMap((folder) => filesUnder(root, folder));
  return files.flatMap((file) => {
    if (/^templates\/.+\.json$/.test(file)) return templateTexts(root, file);
    const isSource = /^(?:apps|packages)\/[^/]+\/src\/.+\.tsx?$/.test(file);
    return isSource && !/\.test\.|\/testing\/|\/testdata\//.test(file)
      ? shownTexts(root, file)
      : [];
  });
}

/**
 * What a maker is shown that we say otherwise, a line each.
 * @param {readonly ShownText[]} texts
 * @returns {string[]}
 */
export function wordProblems(texts) {
  return texts.flatMap(({ file, line, text }) =>
    Object.hasOwn(LEFT, file)
      ? []
      : RULES.filter(
          ([not, , among]) => (among === undefined || text.includes(' ')) && not.test(text),
        ).map(([, say]) => `${file}:${line} "${text.slice(0, 120)}": say ${say}`),
  );
}

if (argv[1] === fileURLToPath(import.meta.url)) {
  const problems = wordProblems(allShown(fileURLToPath(new URL('../..', import.meta.url))));
  for (const problem of problems) process.stdout.write(`${problem}\n`);
  process.exitCode = problems.length === 0 ? 0 : 1;
}
