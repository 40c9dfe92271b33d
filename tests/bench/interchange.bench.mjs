import { importFile, writeOds, writeXlsx } from '@kerfbook/interchange';
import { loadText, Workbook } from '@kerfbook/workbook';
import { longBook } from './long-book.mjs';

/**
 * A workbook of 50,000 formulas written for office programs and taken in again, in milliseconds, the most memory the
 * process took so far and the size of the file; beside libraries that read and write the same xlsx file, where they are
 * there (`npm install --no-save hucre@1.0.0 exceljs@4.4.0`, both MIT, the second no longer
 * maintained: they are no dependencies). Ours decides for each formula whether it goes
 * along and, taking in, opens the workbook and holds every value against the file's; they do neither.
 * Target: written within twice the time of the slower of both; taken in within the 5 s that the app waits.
 */

const ROWS = 10_000;
const ROUNDS = 3;

const text = longBook({
  title: 'Fifty thousand',
  sheets: ['Sizes'],
  rows: ROWS,
  line: (row) => [row / 8, ...[2, 3, 4, 5, 6].map((by) => `=[c1.r${row}]*${by}+[$c1.$r1]`)],
});
const loaded = loadText(text);
if (!loaded.ok) throw new Error(loaded.says);
const book = Workbook.open(loaded.document);

/**
 * @typedef {object} Beside
 * @property {(bytes: Uint8Array) => Promise<unknown>} read
 * @property {(read: unknown) => Promise<Uint8Array>} write
 */

/** A library by its name; nothing where it is not there. @param {string} name @returns {Promise<any>} */
async function found(name) {
  try {
    return await import(name);
  } catch (error) {
    if (/** @type {{ code?: string }} */ (error).code === 'ERR_MODULE_NOT_FOUND') return undefined;
    throw error;
  }
}

/** @returns {Promise<ReadonlyMap<string, Beside>>} */
async function libraries() {
  /** @type {Map<string, Beside>} */
  const all = new Map();
  const hucre = await found('hucre');
  if (hucre !== undefined) {
    all.set('hucre', {
      read: (bytes) => hucre.readXlsx(bytes),
      write: (read) => hucre.writeXlsx(read),
    });
  }
  const excel = await found('exceljs');
  if (excel !== undefined) {
    all.set('exceljs', {
      read: async (bytes) => {
        const workbook = new excel.default.Workbook();
        await workbook.xlsx.load(bytes);
        return workbook;
      },
      write: async (read) => new Uint8Array(await /** @type {any} */ (read).xlsx.writeBuffer()),
    });
  }
  return all;
}

/** The quickest of some rounds, in milliseconds. @template T @param {() => T | Promise<T>} work */
async function measured(work) {
  let best = Number.POSITIVE_INFINITY;
  /** @type {T | undefined} */
  let result;
  for (let round = 0; round < ROUNDS; round += 1) {
    result = undefined;
    const start = performance.now();
    result = await work();
    best = Math.min(best, performance.now() - start);
  }
  return { best, result: /** @type {T} */ (result) };
}

/** @param {string} label @param {{ best: number }} of @param {string} [more] */
function line(label, { best }, more = '') {
  const peak = process.resourceUsage().maxRSS / 1024;
  console.log(
    `${label.padEnd(34)}${best.toFixed(0).padStart(7)} ms  peak ${peak.toFixed(0).padStart(5)} MB  ${more}`,
  );
}

const writers = { xlsx: writeXlsx, ods: writeOds };
/** @type {Record<string, Uint8Array>} */
const files = {};
for (const [ending, write] of Object.entries(writers)) {
  const out = await measured(() => write(book).bytes);
  files[ending] = out.result;
  line(`Kerfbook writes ${ending}`, out, `${(out.result.length / 1024).toFixed(0)} kB`);
  const back = await measured(() => importFile(out.result, `x.${ending}`));
  if (!back.result.ok) throw new Error(back.result.says);
  line(`Kerfbook takes ${ending} in`, back, `${back.result.counts.formulas} formulas`);
}
for (const [name, { read, write }] of await libraries()) {
  const back = await measured(() => read(files.xlsx ?? new Uint8Array()));
  line(`${name} reads xlsx`, back);
  const out = await measured(() => write(back.result));
  line(`${name} writes xlsx`, out, `${(out.result.length / 1024).toFixed(0)} kB`);
}
