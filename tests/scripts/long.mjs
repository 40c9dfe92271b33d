import { readdirSync } from 'node:fs';
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
 * `npm run test:long [WORD]`: the random tests of edits, formulas, files and kills at a hundred times
 * their size in `npm test`, or at KERFBOOK_TIMES; those whose name holds a word, where one is given.
 */

const root = fileURLToPath(new URL('../..', import.meta.url));
const home = join(root, 'tests');
const [word = ''] = process.argv.slice(2);
const LONG = /^random-.*\.test\.ts$/;

async function main() {
  await ensureInstalled(root);
  await ensureBuilt(root);
  console.log(await ensureBrowser());
  const files = ['hostile', 'browser']
    .flatMap((folder) => readdirSync(join(home, folder)).map((name) => join(folder, name)))
    .filter((file) => LONG.test(file.split(/[\\/]/).at(-1) ?? '') && file.includes(word))
    .sort();
  if (files.length === 0) throw new NotReady(`No random test is called "${word}".`);
  const env = { ...process.env, KERFBOOK_TIMES: process.env.KERFBOOK_TIMES ?? '100' };
  for (const file of files) {
    console.log(`\n── ${file}, ${env.KERFBOOK_TIMES} times`);
    const code = await runToEnd(join(root, 'node_modules', '.bin', 'vitest'), ['run', file], {
      cwd: home,
      output: 'inherit',
      env,
    });
    if (code !== 0) process.exitCode = 1;
  }
}

try {
  await main();
} catch (error) {
  if (!(error instanceof NotReady)) throw error;
  console.error(error.message);
  process.exitCode = 1;
}
