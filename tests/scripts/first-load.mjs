import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** What the script of a first load may come to at most, gzip, in bytes. */
export const MOST_SCRIPT = 550_000;

/**
 * The scripts that the built page cannot start without: those its head names and all that these import,
 * from import to import. What is imported by a call comes later and is none of them.
 * @param {string} folder the built app
 * @returns {readonly string[]} paths within the folder, with forward slashes
 */
export function firstScripts(folder) {
  const page = readFileSync(join(folder, 'index.html'), 'utf8');
  const waiting = [...page.matchAll(/(?:src|href)="\/?([^"]+\.js)"/g)].map(([, file = '']) => file);
  if (waiting.length === 0) throw new Error(`the page in ${folder} names no script`);
  /** @type {Set<string>} */
  const found = new Set();
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (found.has(file)) continue;
    found.add(file);
    const home = dirname(file);
    const code = readFileSync(join(folder, file), 'utf8');
    for (const [, one = ''] of code.matchAll(/\b(?:import|from)\s*["'`]\.\/([^"'`]+\.js)["'`]/g)) {
      if (existsSync(join(folder, home, one))) waiting.push(`${home}/${one}`);
    }
  }
  return [...found].sort();
}

/** What files come to when each is compressed with gzip, in bytes. @param {string} folder @param {readonly string[]} files */
export function compressedSize(folder, files) {
  return files.reduce((sum, file) => sum + gzipSync(readFileSync(join(folder, file))).length, 0);
}

/**
 * For a page before it loads: notes when the first cell of the grid is on the screen.
 * @returns {string} a script
 */
export const NOTE_GRID = `(() => {
  const look = () => {
    if (document.querySelector('.ag-row .ag-cell') === null) requestAnimationFrame(look);
    else window.gridThere = performance.now();
  };
  requestAnimationFrame(look);
})()`;

/**
 * Scripts that the page began to load before the first cell was on the screen, with the bytes that were
 * sent of each. The page has to be opened with {@link NOTE_GRID}.
 * @param {import('playwright-core').Page} page
 * @returns {Promise<readonly { file: string, sent: number }[]>}
 */
export async function scriptsBeforeGrid(page) {
  await page.waitForFunction(() => 'gridThere' in window);
  return page.evaluate(() => {
    const { gridThere } = /** @type {{ gridThere: number }} */ (/** @type {unknown} */ (window));
    return performance
      .getEntriesByType('resource')
      .filter((entry) => entry.startTime < gridThere && /\.js(\?|$)/.test(entry.name))
      .map((entry) => ({
        file: new URL(entry.name).pathname.slice(1),
        sent: /** @type {PerformanceResourceTiming} */ (entry).encodedBodySize,
      }))
      .sort((a, b) => (a.file < b.file ? -1 : 1));
  });
}
