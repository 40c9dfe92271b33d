import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The module that the cards are put into, and the place in it. */
const SHOWN = /\/apps\/grid\/src\/gallery\/built-in-cards\.ts$/;
const PLACE = 'new Map()';

/** As `vite.config.ts` has them for the page: a server that makes the cards reads sources too, not what was built. */
const FROM_SOURCES = {
  conditions: ['kerfbook-source', 'module', 'node', 'development|production'],
  noExternal: [/^@kerfbook\//],
};

/**
 * Works out the cards of the built-in templates, and puts them into a module that comes with the list of workbooks: no
 * maker's device opens fourteen workbooks for it. A build takes the built packages, a server of sources these.
 * @returns {import('vite').Plugin}
 */
export function builtInCards() {
  /** @type {import('vite').ViteDevServer | undefined} */
  let server;
  return {
    name: 'kerfbook-built-in-cards',
    enforce: 'post',
    config: (_, { command }) =>
      command === 'serve' ? { environments: { ssr: { resolve: FROM_SOURCES } } } : undefined,
    configureServer(started) {
      server = started;
    },
    async transform(code, id) {
      if (!SHOWN.test(id.replaceAll('\\', '/').replace(/\?.*$/, ''))) return undefined;
      if (code.split(PLACE).length !== 2) {
        this.error(`${id} has no place for the cards. Mend apps/grid/scripts/built-in-cards.mjs.`);
      }
      const cards = server === undefined ? built() : await served(server, this);
      return { code: code.replace(PLACE, () => `new Map(${cards})`), map: null };
    },
  };
}

/** Asked of a Node of its own, which reads no sources. */
function built() {
  const ask = `import { cardsOfTemplates } from './scripts/cards.mjs';
    process.stdout.write(cardsOfTemplates());`;
  return execFileSync(process.execPath, ['--input-type=module', '--eval', ask], {
    cwd: fileURLToPath(new URL('..', import.meta.url)),
    env: { ...process.env, NODE_OPTIONS: '' },
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
}

/**
 * Drawn anew where a template was changed.
 * @param {import('vite').ViteDevServer} server @param {{ addWatchFile(file: string): void }} module
 */
async function served(server, module) {
  const { cardsOfTemplates, templateFiles } = await server.ssrLoadModule(
    fileURLToPath(new URL('cards.mjs', import.meta.url)),
  );
  for (const file of templateFiles()) module.addWatchFile(file);
  return cardsOfTemplates();
}
