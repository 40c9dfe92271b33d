// Writes packages/interchange/GOES-ALONG.md: what of each template's formulas goes along to other programs. A test
// compares the two.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import { writeXlsx } from '@kerfbook/interchange';
import { loadText, Workbook } from '@kerfbook/workbook';
import { followingOf } from './following.mjs';

export const PAGE = new URL('../../packages/interchange/GOES-ALONG.md', import.meta.url);
const TEMPLATES = new URL('../../templates/', import.meta.url);

const OURS = /(\S+) is a function of Kerfbook/;

/** The page as it should stand. */
export function goesAlongPage() {
  /** @type {Map<string, number>} */
  const frozen = new Map();
  const total = {
    kept: 0,
    writtenOut: 0,
    frozen: 0,
    checks: 0,
    frozenChecks: 0,
    moved: 0,
    follow: 0,
  };
  const names = readdirSync(TEMPLATES)
    .filter((name) => name.endsWith('.json'))
    .sort();
  const lines = names.map((name) => {
    const loaded = loadText(readFileSync(new URL(name, TEMPLATES), 'utf8'));
    if (!loaded.ok) throw new Error(`${name}: ${loaded.says}`);
    const book = Workbook.open(loaded.document);
    const { formulas, told } = writeXlsx(book);
    const following = followingOf(book, told);
    const isFrozen = told.filter(({ kind }) => kind === 'frozen');
    const checks = loaded.document.checks.length;
    const frozenChecks = isFrozen.filter(({ of }) => of.startsWith('Check "')).length;
    for (const { says } of isFrozen) {
      const why = OURS.exec(says)?.[1] ?? 'otherwise';
      frozen.set(why, (frozen.get(why) ?? 0) + 1);
    }
    total.kept += formulas.kept;
    total.writtenOut += formulas.writtenOut;
    total.frozen += formulas.frozen;
    total.checks += checks;
    total.frozenChecks += frozenChecks;
    total.moved += following.moved;
    total.follow += following.follow;
    return row(
      name.replace(/\.json$/, ''),
      formulas,
      checks - frozenChecks,
      frozenChecks,
      following,
    );
  });
  const reasons = [...frozen].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
  return [
    '# What goes along to other programs',
    'Formulas of the built-in templates, written as xlsx or ods: as they are, written out in functions that every office program has, or as their last value with the formula in a remark. In again, all of them are formulas again, and every cell comes to the same. Written by `node tests/scripts/goes-along-page.mjs`, after a build.',
    table([
      [
        'template',
        'as they are',
        'written out',
        'last value',
        'checks as formulas',
        'checks as last state',
        'results that follow',
      ],
      ...lines,
      row('**in all**', total, total.checks - total.frozenChecks, total.frozenChecks, total),
    ]),
    'Results that follow: ten inputs of each template are changed one by one, each by a tenth of its range; of the results that move, those that rest on nothing that stands as its last value. A test holds that LibreOffice comes to the same in all of them.',
    '## Why the last value stands',
    'The first function of a formula that no other program has, and how many formulas and checks it holds back:',
    reasons.map(([name, count]) => `${name} ${count}`).join(', '),
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');
}

/**
 * @param {string} name
 * @param {{ readonly kept: number, readonly writtenOut: number, readonly frozen: number }} formulas
 * @param {number} checks
 * @param {number} frozenChecks
 * @param {{ readonly moved: number, readonly follow: number }} following
 */
function row(name, { kept, writtenOut, frozen }, checks, frozenChecks, { moved, follow }) {
  const counts = [kept, writtenOut, frozen, checks, frozenChecks].map(String);
  return [name, ...counts, `${follow} of ${moved}`];
}

/**
 * Columns as wide as their widest entry, as the formatter has them: heads at the left, numbers at the right.
 * @param {readonly (readonly string[])[]} rows the heads first
 */
function table([heads = [], ...rows]) {
  const widths = heads.map((head, at) =>
    Math.max(head.length, ...rows.map((one) => (one[at] ?? '').length)),
  );
  const line = (/** @type {readonly string[]} */ cells) => `| ${cells.join(' | ')} |`;
  return [
    line(heads.map((head, at) => head.padEnd(widths[at] ?? 0))),
    line(widths.map((width, at) => (at === 0 ? '-'.repeat(width) : `${'-'.repeat(width - 1)}:`))),
    ...rows.map((one) =>
      line(
        one.map((text, at) =>
          at === 0 ? text.padEnd(widths[at] ?? 0) : text.padStart(widths[at] ?? 0),
        ),
      ),
    ),
  ].join('\n');
}

if (argv[1] === fileURLToPath(import.meta.url)) writeFileSync(PAGE, goesAlongPage());
