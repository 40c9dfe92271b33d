import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const folder = fileURLToPath(new URL('../.results', import.meta.url));

/**
 * Puts a module and all that it imports into one file that Node reads at once; what is native stays outside, and what would not go into one.
 * @param {URL} module
 * @param {readonly string[]} conditions by which packages are read: from their sources, or else as they were built
 * @returns {Promise<string>} where the file is
 */
export async function bundled(module, conditions = []) {
  const entry = fileURLToPath(module);
  await build({
    configFile: false,
    logLevel: 'error',
    root: folder,
    resolve: { conditions: [...conditions] },
    ssr: {
      noExternal: true,
      external: ['libsql', 'pg', 'sharp', '@node-rs/argon2'],
      resolve: { conditions: [...conditions, 'node'] },
    },
    build: { ssr: entry, outDir: folder, emptyOutDir: false, minify: false },
  });
  return join(folder, basename(entry).replace(/\.(?:mjs|ts)$/, '.js'));
}
