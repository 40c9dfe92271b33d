import { fileURLToPath } from 'node:url';
import { build, loadConfigFromFile, mergeConfig } from 'vite';

const HOME = fileURLToPath(new URL('..', import.meta.url));

/**
 * What writes into the built app, which stays as it is here, and the look at the engine, which the real
 * build has taken: tests read packages from their sources, and Node alone cannot.
 */
const NOT_HERE = new Set([
  'kerfbook-licences',
  'kerfbook-offline',
  'kerfbook-compress',
  'kerfbook-engine-checked',
]);

/**
 * Builds the app once more, for nobody, and tells what went into it. For tests: what a page of the build
 * says can be compared with this.
 * @returns {Promise<readonly string[]>} modules and copied files, as the build names them
 */
export async function modulesOfBuild() {
  const loaded = await loadConfigFromFile(
    { command: 'build', mode: 'production' },
    undefined,
    HOME,
  );
  if (loaded === null) throw new Error('The app has no settings for its build.');
  const plugins = (loaded.config.plugins ?? [])
    .flat()
    .filter((one) => !(one && 'name' in one && NOT_HERE.has(one.name)));
  /** @type {string[]} */
  const ids = [];
  const tell = {
    name: 'kerfbook-modules',
    /** @param {unknown} _ @param {import('vite').Rolldown.OutputBundle} bundle */
    generateBundle(_, bundle) {
      for (const file of Object.values(bundle)) {
        ids.push(...(file.type === 'chunk' ? file.moduleIds : file.originalFileNames));
      }
    },
  };
  await build(
    mergeConfig(
      {
        ...loaded.config,
        plugins: [...plugins, tell],
        // Workers are built by themselves.
        worker: { ...loaded.config.worker, plugins: () => [tell] },
      },
      {
        configFile: false,
        root: HOME,
        logLevel: 'error',
        build: { write: false, minify: false, reportCompressedSize: false },
      },
    ),
  );
  return ids;
}
