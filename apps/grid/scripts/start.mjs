import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureBuilt, ensureInstalled, NotReady } from '../../cli/scripts/ensure.mjs';

/**
 * `npm start`: installs what is missing, builds what changed, serves the app on localhost and
 * prints its address. It stops on Ctrl+C.
 */

const PORT = 4173;
const TRIES = 20;

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
const built = join(root, 'apps', 'grid', 'dist');

/** @param {string | undefined} wish the PORT of the environment */
function wishedPort(wish) {
  if (wish === undefined || wish === '') return undefined;
  const port = Number(wish);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new NotReady(`PORT is "${wish}"; it has to be a whole number from 0 to 65535.`);
}

/** @param {unknown} error */
const isTaken = (error) => error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';

/** Serves on the wished port or not at all; without a wish, on the first free one from 4173. */
async function serveSomewhere() {
  // It needs what is built.
  const { serve } = await import('./serve.mjs');
  const wish = wishedPort(process.env.PORT);
  const first = wish ?? PORT;
  const last = wish ?? PORT + TRIES;
  for (let port = first; port <= last; port += 1) {
    try {
      return await serve({ folder: built, port });
    } catch (error) {
      if (!isTaken(error)) throw error;
    }
  }
  const taken = first === last ? `Port ${first} is` : `Ports ${first} to ${last} are`;
  throw new NotReady(`${taken} taken. Set PORT to a free one, as in "PORT=8080 npm start".`);
}

async function main() {
  await ensureInstalled(root);
  await ensureBuilt(root, '@kerfbook/grid');
  if (!existsSync(join(built, 'index.html'))) {
    throw new NotReady('The build left no app to serve. "npx turbo run build --force" repeats it.');
  }
  const server = await serveSomewhere();
  console.log(`Kerfbook is at ${server.address}`);
  if (process.env.PORT === undefined && server.port !== PORT) {
    console.log(
      `Port ${PORT} is taken. A browser keeps workbooks by address: those made at http://localhost:${PORT}/ are not shown here.`,
    );
  }
  console.log('Ctrl+C stops it.');
  const stop = () => {
    void server.close().then(() => process.exit(0));
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
}

try {
  await main();
} catch (error) {
  if (!(error instanceof NotReady)) throw error;
  console.error(error.message);
  process.exitCode = 1;
}
