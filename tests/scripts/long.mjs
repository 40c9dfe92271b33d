import { readdirSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  ensureBrowser,
  ensureBuilt,
  ensureInstalled,
  NotReady,
  runToEnd,
} from '../../apps/cli/scripts/ensure.mjs';

/**
 * `npm run test:long [WORD]`: the random tests of edits, formulas, files, tables, other templates and kills at a
 * hundred times their size in `npm test`, or at KERFBOOK_TIMES; those whose name holds a word, where one is given.
 */

const root = fileURLToPath(new URL('../..', import.meta.url));
const home = join(root, 'tests');
const [word = ''] = process.argv.slice(2);
const LONG = /^(?:random-.*|books)\.test\.ts$/;

/** Times that one process runs a test: enough to be worth its start. */
const PART = 25;

/** @param {number} all @returns {number[]} how many times each part of a long run is */
function inParts(all) {
  const parts = Array(Math.floor(all / PART)).fill(PART);
  return all % PART === 0 ? parts : [...parts, all % PART];
}

/** @param {{ file: string, times: number }} job */
async function run({ file, times }) {
  const began = Date.now();
  console.log(`── ${file}, ${times} times`);
  const code = await runToEnd(join(root, 'node_modules', '.bin', 'vitest'), ['run', file], {
    cwd: home,
    output: 'inherit',
    env: { ...process.env, KERFBOOK_TIMES: String(times) },
  });
  const minutes = ((Date.now() - began) / 60_000).toFixed(1);
  console.log(
    `── ${file}, ${times} times: ${code === 0 ? 'nothing found' : 'FOUND'} in ${minutes} min`,
  );
  if (code !== 0) process.exitCode = 1;
}

async function main() {
  await ensureInstalled(root);
  await ensureBuilt(root);
  console.log(await ensureBrowser());
  const files = ['hostile', 'browser']
    .flatMap((folder) => readdirSync(join(home, folder)).map((name) => join(folder, name)))
    .filter((file) => LONG.test(file.split(/[\\/]/).at(-1) ?? '') && file.includes(word))
    .sort();
  if (files.length === 0) throw new NotReady(`No random test is called "${word}".`);
  const all = Number(process.env.KERFBOOK_TIMES ?? '100');
  if (!Number.isInteger(all) || all < 1) throw new NotReady('KERFBOOK_TIMES is a whole number.');
  const jobs = files.flatMap((file) => inParts(all).map((times) => ({ file, times })));
  // Each keeps to one processor; what they print may come between one another.
  const work = async () => {
    for (let job = jobs.shift(); job !== undefined; job = jobs.shift()) await run(job);
  };
  await Promise.all(Array.from({ length: availableParallelism() }, work));
}

try {
  await main();
} catch (error) {
  if (!(error instanceof NotReady)) throw error;
  console.error(error.message);
  process.exitCode = 1;
}
