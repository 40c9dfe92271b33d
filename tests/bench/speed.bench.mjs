import { spawnSync } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { contentsOf, diningTable, placeOf, withBuying, withPlansMade } from './books.mjs';
import { flatSheet } from './flat-sheet.mjs';
import { chain } from './long-book.mjs';

/**
 * What following an edit costs, beside bare HyperFormula and beside LibreOffice with the same workbook in the
 * same run: an edit that 500, 5,000 and 50,000 formulas hang on, one that two hang on, inserting a row,
 * opening, memory; and how often a second the dining table can be asked. Each side runs in a process of
 * its own. `KERFBOOK_ROUNDS` asks for other than 30 rounds.
 */

const ROUNDS = Number(process.env.KERFBOOK_ROUNDS ?? '30');
if (!Number.isInteger(ROUNDS) || ROUNDS < 1) {
  throw new Error(`KERFBOOK_ROUNDS is a whole number from 1 on, not "${ROUNDS}".`);
}

/** Formulas of the chains with what an edit that all of them hang on may take, ms. */
const CHAINS = [
  { formulas: 500, target: 0.4 },
  { formulas: 5_000, target: 2 },
  // The limit of rows leaves room for the two formulas beside the chain and one more row.
  { formulas: 49_990, target: undefined },
];
/** Where LibreOffice is not there to be beaten: what it took when the target was set, ms. */
const OFFICE_THEN = 13;
const EVALUATIONS_TARGET = 50;

/** @typedef {import('./side.mjs').Figures} Figures @typedef {import('./side.mjs').Job} Job */
/**
 * @typedef {object} OfficeFigures
 * @property {number} open
 * @property {number} resident
 * @property {number} call what a call to it takes that does nothing
 * @property {number} recalculation
 * @property {number} back set and read a column back
 * @property {number} few
 * @property {number} insert
 * @property {number[]} values
 */

/** @param {string} program @param {readonly string[]} args @returns {unknown} */
function answerOf(program, args) {
  const ran = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 1e8 });
  if (ran.error !== undefined) throw ran.error;
  if (ran.status !== 0) throw new Error(`${program} stopped: ${ran.stderr}`);
  return JSON.parse(ran.stdout);
}

/** @param {string} side @param {Omit<Job, 'side' | 'rounds'>} job */
const measured = (side, job) =>
  /** @type {Figures} */ (
    answerOf(process.execPath, [
      '--expose-gc',
      join(import.meta.dirname, 'side.mjs'),
      JSON.stringify({ ...job, side, rounds: ROUNDS }),
    ])
  );

/** LibreOffice's version and a Python that can talk to it, or why there is none to compare with. */
function officeHere() {
  const version = spawnSync('soffice', ['--version'], { encoding: 'utf8' });
  if (version.status !== 0) return { missing: 'LibreOffice is not installed' };
  const pythons = ['python3', '/usr/bin/python3'];
  const python = pythons.find((one) => spawnSync(one, ['-c', 'import uno']).status === 0);
  if (python === undefined)
    return { missing: 'no Python here can talk to LibreOffice (python3-uno)' };
  return { version: version.stdout.trim().split(' ').slice(0, 2).join(' '), python };
}

/** Sides that come to other values would not be worth comparing. @param {Record<string, readonly unknown[]>} sides */
function sameValues(sides) {
  const [[first, wanted] = ['', []], ...others] = Object.entries(sides);
  for (const [name, values] of others) {
    for (const [i, value] of values.entries()) {
      const other = wanted[i];
      if (typeof other !== 'number') continue;
      const near = typeof value === 'number' && Math.abs(value - other) <= 1e-9 * Math.abs(other);
      if (!near) throw new Error(`result ${i} is ${other} ${first}, but ${value} ${name}`);
    }
  }
}

const LABEL = 34;
const HEADS = ['ours', 'compiled', 'bare', 'LibreOffice', 'ours/bare', 'ours/LibreO.'];

/** @param {string} title */
const head = (title) =>
  console.log(`\n${title.padEnd(LABEL)}${HEADS.map((one) => one.padStart(13)).join('')}  target`);

/** @param {number | undefined} value */
const written = (value) => (value === undefined ? '' : rounded(value)).padStart(13);
/** @param {number} value */
const rounded = (value) => value.toFixed(value >= 100 ? 0 : value >= 10 ? 1 : 3);
/** @param {number} ours @param {number | undefined} other */
const ratio = (ours, other) =>
  (other === undefined || other === 0 ? '' : (ours / other).toFixed(2)).padStart(13);

/**
 * @param {string} label
 * @param {{ ours: number, compiled?: number | undefined, bare: number, office?: number | undefined }} figures
 * @param {string} [target]
 */
function line(label, { ours, compiled, bare, office }, target = 'none') {
  const cells = [ours, compiled, bare, office].map(written).join('');
  console.log(
    `${label.padEnd(LABEL)}${cells}${ratio(ours, bare)}${ratio(ours, office)}  ${target}`,
  );
}

/** @param {number} value @param {number} target @param {string} words */
const held = (value, target, words) => `${words}: ${value <= target ? 'met' : 'not met'}`;

const folder = await mkdtemp(join(tmpdir(), 'kerfbook-bench-'));
try {
  const office = officeHere();
  console.log(
    office.missing === undefined
      ? `${office.version}; its values reach us by a call to its process, which is part of its times.`
      : `${office.missing}: its recalculation is not measured.`,
  );
  console.log(
    `Times in ms, medians of ${ROUNDS}; solving buying plans is not in them. "Compiled" is the compiled evaluator alone.`,
  );
  for (const { formulas, target } of CHAINS) await chainOf(formulas, target, office);
  console.log(
    '\nLibreOffice does not know the functions of the dining table, and is not asked for it.',
  );
  await table('table', 'The dining table', diningTable(), 'aimed');
  await table('made', 'It with its buying plans made', withPlansMade(diningTable()), 'aimed');
  await table('buying', 'It with a buying plan in cells', withBuying(diningTable()));
} finally {
  await rm(folder, { recursive: true });
}

/** @param {string} name @param {string} text */
async function laidOut(name, text) {
  const contents = contentsOf(text);
  const paths = { text: join(folder, `${name}.json`), contents: join(folder, `${name}-bare.json`) };
  await writeFile(paths.text, text);
  await writeFile(paths.contents, JSON.stringify(contents));
  return { contents, paths };
}

/**
 * @param {number} formulas
 * @param {number | undefined} target
 * @param {ReturnType<typeof officeHere>} office
 */
async function chainOf(formulas, target, office) {
  const { contents, paths } = await laidOut(`chain-${formulas}`, chain(formulas));
  const at = (/** @type {number} */ row, /** @type {number} */ column) => ({
    sheet: 's1',
    row,
    column,
  });
  const rows = 1 + formulas / 5;
  const job = {
    ...paths,
    input: at(0, 0),
    results: [at(rows - 1, 5)],
    few: at(0, 1),
    insert: Math.floor(rows / 2),
  };
  const ours = measured('live', job);
  const compiled = measured('compiled', job);
  const bare = measured('bare', job);
  /** @type {Record<string, readonly unknown[]>} */
  const values = { ours: ours.values, compiled: compiled.values, bare: bare.values };
  /** @type {OfficeFigures | undefined} */
  let other;
  if (office.python !== undefined) {
    const sheet = join(folder, `chain-${formulas}.fods`);
    await writeFile(sheet, flatSheet(contents));
    const asked = { ...job, sheet, fewest: at(0, 3), rounds: ROUNDS };
    const script = join(import.meta.dirname, 'office.py');
    other = /** @type {OfficeFigures} */ (answerOf(office.python, [script, JSON.stringify(asked)]));
    values['in LibreOffice'] = other.values;
  }
  sameValues(values);

  const most = target ?? other?.recalculation ?? OFFICE_THEN;
  const whose = other === undefined ? 'when it was set' : `here, ${OFFICE_THEN} when it was set`;
  const words = target === undefined ? ` (LibreOffice ${whose})` : '';
  head(`A chain of ${formulas.toLocaleString('en-US')} formulas`);
  line(
    `edit, ${ours.edit.changed.toLocaleString('en-US')} cells change`,
    {
      ours: ours.edit.time,
      compiled: compiled.edit.time,
      bare: bare.edit.time,
      office: other?.recalculation,
    },
    held(ours.edit.time, most, `${rounded(most)} ms${words}`),
  );
  if (other !== undefined) {
    console.log(
      `${'  LibreOffice with reading back'.padEnd(LABEL)}${''.padStart(39)}${written(other.back)}  (a call that does nothing: ${rounded(other.call)})`,
    );
  }
  line(`edit, ${ours.few?.changed ?? 0} cells change`, {
    ours: ours.few?.time ?? Number.NaN,
    compiled: compiled.few?.time,
    bare: bare.few?.time ?? Number.NaN,
    office: other?.few,
  });
  line('inserting a row', {
    ours: ours.insert?.time ?? Number.NaN,
    bare: bare.insert?.time ?? Number.NaN,
    office: other?.insert,
  });
  line('opening', {
    ours: ours.open.time,
    compiled: compiled.open.time,
    bare: bare.open.time,
    office: other?.open,
  });
  line('memory in use, MB', {
    ours: ours.memory,
    compiled: compiled.memory,
    bare: bare.memory,
  });
  line('memory of the process, MB', {
    ours: ours.resident,
    compiled: compiled.resident,
    bare: bare.resident,
    office: other?.resident,
  });
}

/**
 * A workbook with functions of ours, which LibreOffice does not know.
 * @param {string} name
 * @param {string} title
 * @param {string} text
 * @param {'aimed'} [aimed] it has targets
 */
async function table(name, title, text, aimed) {
  const { contents, paths } = await laidOut(name, text);
  const input = placeOf(text, 'top_length');
  const job = { ...paths, input, results: contents.formulas, one: placeOf(text, 'price') };
  const ours = measured('live', job);
  const compiled = measured('compiled', job);
  const bare = measured('bare', job);
  sameValues({ ours: ours.values, compiled: compiled.values, bare: bare.values });

  head(title);
  /** @param {(of: Figures) => number} of */
  const all = (of) => ({ ours: of(ours), compiled: of(compiled), bare: of(bare) });
  const within = held(ours.edit.time, bare.edit.time, 'bare');
  const times = all(({ edit }) => edit.time);
  line(`edit, ${ours.edit.changed} cells change`, times, aimed && within);
  const solving = all(({ edit }) => edit.solving);
  line('  solving buying plans besides', solving);
  const opening = all(({ open }) => open.time);
  line('opening', opening);
  const memory = all((figures) => figures.memory);
  line('memory in use, MB', memory);
  console.log('another length set and read, times a second');
  /** @param {string} label @param {(of: Figures) => import('./side.mjs').Timed} of */
  const rate = (label, of) => {
    const second = all((figures) => 1000 / of(figures).time);
    const more = second.compiled / second.bare;
    const met = more >= EVALUATIONS_TARGET ? 'met' : 'not met';
    const told = `compiled ${more.toFixed(1)} times bare; ${EVALUATIONS_TARGET} times: ${met}`;
    const cells = Object.values(second).map(written).join('');
    console.log(`${label.padEnd(LABEL)}${cells}  ${aimed === undefined ? '' : told}`);
  };
  rate(`  all ${contents.formulas.length} results`, ({ ask }) => ask);
  rate('  the price alone', ({ one }) => one ?? { time: Number.NaN, solving: 0 });
}
