#!/usr/bin/env node
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureBuilt, ensureInstalled, NotReady } from '../../cli/scripts/ensure.mjs';

/** `npm run club`: installs what is missing, builds what changed, and carries out a command of the club. */

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
try {
  await ensureInstalled(root);
  await ensureBuilt(root, '@kerfbook/grid');
  await ensureBuilt(root, '@kerfbook/club');
  const { runClub } = await import('../dist/index.js');
  process.exitCode = await runClub(
    process.argv.slice(2),
    process.env,
    join(root, 'apps', 'grid', 'dist'),
    { say: (line) => console.log(line), complain: (line) => console.error(line) },
  );
} catch (error) {
  if (!(error instanceof NotReady)) throw error;
  console.error(error.message);
  process.exitCode = 2;
}
