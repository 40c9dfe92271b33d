#!/usr/bin/env node
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureBuilt, ensureInstalled, NotReady } from '../scripts/ensure.mjs';

// A reader that has seen enough (`| head`) is no failure.
process.stdout.on('error', (error) => {
  if (/** @type {NodeJS.ErrnoException} */ (error).code !== 'EPIPE') throw error;
});

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
try {
  await ensureInstalled(root);
  await ensureBuilt(root, '@kerfbook/cli');
  const { nodeIo, run } = await import('../dist/main.js');
  process.exitCode = await run(process.argv.slice(2), nodeIo());
} catch (error) {
  if (!(error instanceof NotReady)) throw error;
  console.error(error.message);
  process.exitCode = 2;
}
