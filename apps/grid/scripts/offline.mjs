import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Adds `worker.js` to the build, with the list of the build's files and a version made of them. Once
 * everything is written: on the way, the build holds files that never come to be.
 * @returns {import('vite').Plugin}
 */
export function offline() {
  return {
    name: 'kerfbook-offline',
    apply: 'build',
    writeBundle({ dir = 'dist' }) {
      const files = readdirSync(dir, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && !/\.(?:map|br|gz)$|^worker\.js$/.test(entry.name))
        .map((entry) => join(entry.parentPath, entry.name).slice(dir.length + 1))
        .map((file) => file.replaceAll('\\', '/'))
        .sort();
      const hash = createHash('sha256');
      for (const file of files) hash.update(file).update(readFileSync(join(dir, file)));
      const kept = files.map((file) => (file === 'index.html' ? './' : file));
      const worker = readFileSync(new URL('worker.js', import.meta.url), 'utf8')
        .replace("VERSION = ''", `VERSION = '${hash.digest('hex').slice(0, 12)}'`)
        .replace('FILES = []', `FILES = ${JSON.stringify(kept)}`);
      writeFileSync(join(dir, 'worker.js'), worker);
    },
  };
}
