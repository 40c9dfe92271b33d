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
  // Each file keeps to one processor; what they print may come between one another.
  const one = async () => {
    for (let file = files.shift(); file !== undefined; file = files.shift()) {
      const began = Date.now();
      console.log(`── ${file}, ${env.KERFBOOK_TIMES} times`);
      const code = await runToEnd(join(root, 'node_modules', '.bin', 'vitest'), ['run', file], {
        cwd: home,
        output: 'inherit',
        env,
      });
      const minutes = ((Date.now() - began) / 60_000).toFixed(1);
      console.log(`── ${file}: ${code === 0 ? 'nothing found' : 'FOUND'} in ${minutes} min`);
      if (code !== 0) process.exitCode = 1;
    }
  };
  await Promise.all(Array.from({ length: availableParallelism() }, one));
}

try {
  await main();
} catch (error) {
  if (!(error instanceof NotReady)) throw error;
  console.error(error.message);
  process.exitCode = 1;
}
