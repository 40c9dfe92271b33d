import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { importFile, writeOds, writeXlsx } from '@kerfbook/interchange';
import { loadText, Workbook } from '@kerfbook/workbook';
import { longBook } from './long-book.mjs';

/**
 * A workbook of 50,000 formulas written for office programs and taken in again, beside libraries that read and write the
 * same files, where they are there (`npm install --no-save hucre@1.0.0 exceljs@4.4.0`, both MIT, the second no longer
 * maintained: they are no dependencies). Taking in is told in two parts: what libraries do too, from the file to its
 * cells, and what they do not, a workbook of these: which formulas go on working, what numbers are, the checks of a saved
 * workbook, all values worked out and held against the file's. Each line is a process of its own: the least time on a
 * processor of some rounds, which a busy machine changes less than the time on the clock, the least of that too, as times
 * of the slower library, and the most memory. Before it is measured each does its work once.
 * Target: reading cells, and writing, within twice the time of the slower library.
 */

const ROWS = 10_000;
const ROUNDS = 5;

/**
 * @typedef {object} Measured
 * @property {number} cpu ms
 * @property {number} clock ms
 * @property {number} peak MB
 * @property {number} [reading] ms on a processor until its cells are known
 * @property {string} [more]
 */

/** @returns {import('@kerfbook/workbook').Workbook} */
function opened() {
  const text = longBook({
    title: 'Fifty thousand',
    sheets: ['Sizes'],
    rows: ROWS,
    line: (row) => [row / 8, ...[2, 3, 4, 5, 6].map((by) => `=[c1.r${row}]*${by}+[$c1.$r1]`)],
  });
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(loaded.says);
  return Workbook.open(loaded.document);
}

const user = (/** @type {NodeJS.CpuUsage} */ since) => process.cpuUsage(since).user / 1000;

/** @param {() => unknown} work @returns {Promise<Measured>} */
async function measured(work) {
  await work();
  let [cpu, clock] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let round = 0; round < ROUNDS; round += 1) {
    const [start, since] = [performance.now(), process.cpuUsage()];
    await work();
    cpu = Math.min(cpu, user(since));
    clock = Math.min(clock, performance.now() - start);
  }
  return { cpu, clock, peak: process.resourceUsage().maxRSS / 1024 };
}

/** @typedef {'xlsx' | 'ods'} Format */

/** What is measured, by its name: who, what and which format. @type {Record<string, (folder: string, format: Format) => Promise<Measured>>} */
const CASES = {
  'Kerfbook writes': async (folder, format) => {
    const book = opened();
    const write = { xlsx: writeXlsx, ods: writeOds }[format];
    const { bytes } = write(book);
    writeFileSync(join(folder, `x.${format}`), bytes);
    return { ...(await measured(() => write(book))), more: `${kB(bytes.length)} kB` };
  },
  'Kerfbook takes in': async (folder, format) => {
    const bytes = fileIn(folder, format);
    let reading = Number.POSITIVE_INFINITY;
    let more = '';
    const all = await measured(() => {
      const since = process.cpuUsage();
      let read = 0;
      const taken = importFile(bytes, `x.${format}`, {
        onward: ({ stage }) => {
          if (stage !== 'reading' && read === 0) read = user(since);
        },
      });
      if (!taken.ok) throw new Error(taken.says);
      reading = Math.min(reading, read);
      more = `${taken.counts.formulas} formulas`;
    });
    return { ...all, reading, more };
  },
  'hucre reads': async (folder, format) => {
    const { readOds, readXlsx } = await library('hucre');
    const bytes = fileIn(folder, format);
    return measured(() => (format === 'ods' ? readOds(bytes) : readXlsx(bytes)));
  },
  'hucre writes': async (folder, format) => {
    const all = await library('hucre');
    const bytes = fileIn(folder, format);
    const read = await (format === 'ods' ? all.readOds(bytes) : all.readXlsx(bytes));
    return measured(() => (format === 'ods' ? all.writeOds(read) : all.writeXlsx(read)));
  },
  'exceljs reads': async (folder, format) => {
    const { Workbook: Theirs } = (await library('exceljs')).default;
    const bytes = fileIn(folder, format);
    return measured(() => new Theirs().xlsx.load(bytes));
  },
  'exceljs writes': async (folder, format) => {
    const { Workbook: Theirs } = (await library('exceljs')).default;
    const book = new Theirs();
    await book.xlsx.load(fileIn(folder, format));
    return measured(() => book.xlsx.writeBuffer());
  },
};

/** @param {string} name @returns {Promise<any>} */
const library = (name) => import(name);

/** @param {string} folder @param {Format} format */
const fileIn = (folder, format) => new Uint8Array(readFileSync(join(folder, `x.${format}`)));

/** @param {number} bytes */
const kB = (bytes) => (bytes / 1024).toFixed(0);

/** @param {string} name */
function isThere(name) {
  try {
    import.meta.resolve(name);
    return true;
  } catch (error) {
    if (/** @type {{ code?: string }} */ (error).code === 'ERR_MODULE_NOT_FOUND') return false;
    throw error;
  }
}

/** A case in a process of its own. @param {string} folder @param {string} name @param {Format} format @returns {Measured} */
function asked(folder, name, format) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [fileURLToPath(import.meta.url), folder, name, format],
    { encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(stderr);
  return JSON.parse(stdout);
}

/** @param {string} label @param {Omit<Measured, 'peak'> & { peak?: number }} of @param {number} [slower] ms */
function line(label, { cpu, clock, peak, more = '' }, slower) {
  const times = slower === undefined ? '' : `${(cpu / slower).toFixed(1)} times`;
  const most = peak === undefined ? '' : `peak ${peak.toFixed(0)} MB`;
  const wall = Number.isNaN(clock) ? '' : `${clock.toFixed(0)} ms`;
  console.log(
    `${label.padEnd(38)}${cpu.toFixed(0).padStart(6)} ms on a processor ${wall.padStart(9)} ${times.padStart(11)}  ${most.padEnd(14)}${more}`.trimEnd(),
  );
}

/** @param {string} folder @param {Format} format */
function compare(folder, format) {
  const libraries = ['hucre', ...(format === 'xlsx' ? ['exceljs'] : [])].filter(isThere);
  const written = asked(folder, 'Kerfbook writes', format);
  const taken = asked(folder, 'Kerfbook takes in', format);
  /** @param {'reads' | 'writes'} does */
  const slowest = (does) => {
    const all = libraries.map((name) => ({ name, of: asked(folder, `${name} ${does}`, format) }));
    for (const { name, of } of all) line(`${name} ${does} ${format}`, of);
    return all.length === 0 ? undefined : Math.max(...all.map(({ of }) => of.cpu));
  };
  const [reads, writes] = [slowest('reads'), slowest('writes')];
  line(`Kerfbook writes ${format}`, written, writes);
  const { reading = Number.NaN } = taken;
  const NO_CLOCK = Number.NaN;
  line(`Kerfbook reads the cells of ${format}`, { cpu: reading, clock: NO_CLOCK }, reads);
  line('  makes a workbook of them', { cpu: taken.cpu - reading, clock: NO_CLOCK });
  line(`  both: takes ${format} in`, taken, reads);
}

/** What the app loads when a file of another program is first asked about: the thread that reads and writes them. */
function onTheWire() {
  const assets = fileURLToPath(new URL('../../apps/grid/dist/assets/', import.meta.url));
  const known = new Set(readdirSync(assets));
  const entry = [...known].find((name) => /^office-worker-.*\.js$/.test(name));
  if (entry === undefined) throw new Error('The app is not built.');
  const found = new Set([entry]);
  let bytes = 0;
  for (const name of found) {
    const text = readFileSync(join(assets, name));
    bytes += gzipSync(text, { level: 9 }).length;
    for (const [, other = ''] of text
      .toString()
      .matchAll(/["'`]\.?\/?(?:assets\/)?([\w-]+\.js)["'`]/g))
      if (known.has(other)) found.add(other);
  }
  console.log(
    `The app's thread for files of other programs: ${found.size} files, ${kB(bytes)} kB gzip`,
  );
}

const [folder, name, format] = process.argv.slice(2);
if (folder !== undefined && name !== undefined && name in CASES) {
  const of = await CASES[name]?.(folder, /** @type {Format} */ (format));
  console.log(JSON.stringify(of));
} else {
  const made = mkdtempSync(join(tmpdir(), 'kerfbook-bench-'));
  try {
    compare(made, 'xlsx');
    compare(made, 'ods');
    onTheWire();
  } finally {
    rmSync(made, { recursive: true, force: true });
  }
}
