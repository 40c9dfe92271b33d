import { readFile } from 'node:fs/promises';

/** What a club is asked is checked by these shapes; they come with its pages. */
const SHAPES = /\/packages\/protocol\/src\/[^?]+\.ts$/;
/** The library behind them, which the first sheet has a small part of. */
const LIBRARY = 'zod';
const LATE = '?late';

/**
 * Gives what comes late a copy of its own of the library of shapes. Shared, all that the late part needs of a module
 * would stand in the first load, where a few kB of it are enough.
 * @returns {import('vite').Plugin}
 */
export function lateShapes() {
  return {
    name: 'kerfbook-late-shapes',
    apply: 'build',
    enforce: 'pre',
    async resolveId(source, importer, options) {
      if (importer === undefined) return undefined;
      const path = importer.replaceAll('\\', '/');
      const begins = source === LIBRARY && SHAPES.test(path);
      if (!begins && !path.endsWith(LATE)) return undefined;
      const from = path.endsWith(LATE) ? path.slice(0, -LATE.length) : importer;
      const found = await this.resolve(source, from, { ...options, skipSelf: true });
      return found === null || found.external ? found : { ...found, id: found.id + LATE };
    },
    load: (id) => (id.endsWith(LATE) ? readFile(id.slice(0, -LATE.length), 'utf8') : undefined),
  };
}
