import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';

/** Fonts and pictures are compressed already. */
const WORTH = /\.(?:js|css|html|json|svg|txt)$/;
/** Below this, in bytes, an answer takes no less time for being shorter. */
const LEAST = 1024;

const asBrotli = promisify(brotliCompress);
const asGzip = promisify(gzip);

/**
 * Lays compressed copies beside the build's files for the server to send. Last of all, so that nothing
 * that lists the build's files lists them too.
 * @returns {import('vite').Plugin}
 */
export function compress() {
  let folder = 'dist';
  return {
    name: 'kerfbook-compress',
    apply: 'build',
    configResolved({ root, build }) {
      folder = join(root, build.outDir);
    },
    async closeBundle() {
      const files = readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && WORTH.test(entry.name))
        .map((entry) => join(entry.parentPath, entry.name))
        .filter((file) => statSync(file).size >= LEAST);
      await Promise.all(files.map(compressFile));
    },
  };
}

/** @param {string} file */
async function compressFile(file) {
  const plain = readFileSync(file);
  const [br, gz] = await Promise.all([
    asBrotli(plain, {
      params: {
        [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY,
        [constants.BROTLI_PARAM_SIZE_HINT]: plain.length,
      },
    }),
    asGzip(plain, { level: constants.Z_BEST_COMPRESSION }),
  ]);
  if (br.length < plain.length) writeFileSync(`${file}.br`, br);
  if (gz.length < plain.length) writeFileSync(`${file}.gz`, gz);
}
