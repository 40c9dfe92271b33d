import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** By this file, whoever asks knows that the app answers and no other program (`worker.js`). */
const SIGN = 'kerfbook.json';

/**
 * Adds `worker.js` to the build, with the list of the build's files and a version made of them, and the
 * sign with the same version. Once everything is written: on the way, the build holds files that never
 * come to be.
 * @returns {import('vite').Plugin}
 */
export function offline() {
  return {
    name: 'kerfbook-offline',
    apply: 'build',
    writeBundle({ dir = 'dist' }) {
      const files = readdirSync(dir, { recursive: true, withFileTypes: true })
        .filter(
          (entry) =>
            entry.isFile() && !/\.(?:map|br|gz)$|^(?:worker\.js|kerfbook\.json)$/.test(entry.name),
        )
        .map((entry) => join(entry.parentPath, entry.name).slice(dir.length + 1))
        .map((file) => file.replaceAll('\\', '/'))
        .sort();
      const written = readFileSync(new URL('worker.js', import.meta.url), 'utf8');
      const hash = createHash('sha256').update(written);
      for (const file of files) hash.update(file).update(readFileSync(join(dir, file)));
      const version = hash.digest('hex').slice(0, 12);
      writeFileSync(join(dir, SIGN), `${JSON.stringify({ app: 'kerfbook', build: version })}\n`);
      const kept = [...files, SIGN].map((file) => (file === 'index.html' ? './' : file));
      const worker = written
        .replace("VERSION = ''", `VERSION = '${version}'`)
        .replace('FILES = []', `FILES = ${JSON.stringify(kept)}`);
      writeFileSync(join(dir, 'worker.js'), worker);
    },
  };
}
