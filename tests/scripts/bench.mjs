import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  ensureBuilt,
  ensureInstalled,
  NotReady,
  runToEnd,
} from '../../apps/cli/scripts/ensure.mjs';

/** `npm run bench [NAME]`: every benchmark, or those whose name holds a word, one after another. */

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = join(root, 'tests', 'bench');
const [word = ''] = process.argv.slice(2);
const benchmarks = readdirSync(folder)
  .filter((name) => name.endsWith('.bench.mjs') && name.includes(word))
  .sort();

async function main() {
  await ensureInstalled(root);
  await ensureBuilt(root);
  if (benchmarks.length === 0) throw new NotReady(`No benchmark is called "${word}".`);
  for (const name of benchmarks) {
    console.log(`\n── ${name.replace('.bench.mjs', '')}`);
    // Each in a process of its own: what one leaves in memory would slow the next.
    const code = await runToEnd(process.execPath, [join(folder, name)], {
      cwd: root,
      output: 'inherit',
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
