import { csvText } from '@kerfbook/interchange';
import {
  type Asker,
  asCell,
  type Best,
  best,
  contextOf,
  type Outcome,
  readStudies,
  runTable,
  type Spread,
  StudyFault,
  type StudyQuestion,
  seek,
  spread,
  studyOf,
  type TableRun,
} from '@kerfbook/studies';
import { type CellValue, type CellView, showValue, type Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { asked, asking, type Waited } from '../asking.ts';
import type { ExitCode, Io } from '../io.ts';
import { openAndSet } from '../open-set.ts';
import { tableText } from '../table-text.ts';
import { type Plain, plainValue } from '../values.ts';
import { printJson } from '../visible.ts';
import type { Command } from './command.ts';
import { seekReport } from './seek.ts';

/** How results are printed. */
type As = 'text' | 'json' | 'csv';

/** `study`: results of a workbook for many sets of its inputs: as a table, spread at random, or the best of them. */
export const studyCommand: Command = {
  name: 'study',
  usage:
    'study FILE (--over name=from..to/step|name=a,b…)… --get name,… [--best name[,name]] [--spread [--draws N] [--seed N]] [--set name=entry]… [--json|--csv] | study FILE --named STUDY',
  does: 'prints results for every value of one input or several and which checks they fail; with --best the set that comes to the least and breaks no check; with --spread what inputs that are not known for sure (low, likely, high) come to; with --named what a study written in the workbook asks',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      over: { type: 'string', multiple: true },
      get: { type: 'string', multiple: true },
      set: { type: 'string', multiple: true },
      best: { type: 'string' },
      spread: { type: 'boolean' },
      draws: { type: 'string' },
      seed: { type: 'string' },
      named: { type: 'string' },
      json: { type: 'boolean' },
      csv: { type: 'boolean' },
    });
    if (values.json === true && values.csv === true) throw new Misuse('Give --json or --csv.');
    if (values.best !== undefined && values.spread === true) {
      throw new Misuse('Give --best or --spread.');
    }
    const opened = await openAndSet('study', positionals, values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    const asks = asked(() =>
      values.named === undefined
        ? studyOf(book, {
            kind: values.best !== undefined ? 'best' : values.spread === true ? 'spread' : 'table',
            over: overOf(values.over ?? []),
            show: (values.get ?? []).join(','),
            goal: values.best,
            ...numbersOf(values),
          })
        : namedStudy(book, values.named),
    );
    for (const { cell, says } of refused) io.err(`${cell} ${says}`);
    const as: As = values.json === true ? 'json' : values.csv === true ? 'csv' : 'text';
    const code = await answered(book, asks, as, io);
    return refused.length > 0 && code === 0 ? 1 : code;
  },
};

/** Clauses as a study has them; a name and its values may have a sign between. */
function overOf(words: readonly string[]): string {
  if (words.length === 0) {
    throw new Misuse('Nothing is studied. Give --over name=from..to/step or --over name=a,b.');
  }
  if (words.some((word) => word.includes(';'))) {
    throw new Misuse('--over takes one input. Give it once for each.');
  }
  return words.join(';');
}

function numbersOf(values: {
  readonly draws?: string | undefined;
  readonly seed?: string | undefined;
}) {
  const whole = (name: string, text: string | undefined): number | undefined => {
    if (text === undefined) return undefined;
    if (!/^\d{1,9}$/.test(text))
      throw new Misuse(`--${name} takes a whole number; it got "${text}".`);
    return Number(text);
  };
  return { draws: whole('draws', values.draws), seed: whole('seed', values.seed) };
}

function namedStudy(book: Workbook, name: string): StudyQuestion {
  const studies = readStudies(book);
  const key = name.trim().toLowerCase();
  const found = studies.find((one) => one.name.toLowerCase() === key);
  if (found === undefined) {
    const names = studies.map((one) => `"${one.name}"`).join(', ');
    throw new StudyFault(
      names === ''
        ? 'This workbook has no studies. Write them into a table of studies, or give --over.'
        : `There is no study called "${name}". The studies are ${names}.`,
    );
  }
  if (found.asks === undefined) throw new StudyFault(found.problems[0]?.says ?? '');
  return found.asks;
}

async function answered(book: Workbook, asks: StudyQuestion, as: As, io: Io): Promise<ExitCode> {
  const many = asks.kind === 'table' ? setCount(asks.over) : 100_000;
  const ended = await asking(book, io, many, (asker, waited) => ask(book, asks, asker, waited));
  if (ended === undefined) return 2;
  const { result, stopped } = ended;
  switch (result.kind) {
    case 'table':
      return printTable(book, result.run, as, io);
    case 'spread':
      printSpread(book, result.run, as, io);
      return stopped ? 1 : 0;
    case 'best':
      return printBest(book, result.run, as, io);
    case 'seek':
      return seekReport(book, result.found, as === 'json', io);
  }
}

const setCount = (over: readonly { readonly values: readonly unknown[] }[]): number =>
  over.reduce((product, { values }) => product * values.length, 1);

async function ask(book: Workbook, asks: StudyQuestion, asker: Asker, waited: Waited) {
  switch (asks.kind) {
    case 'table': {
      const run = await runTable(book, asker, asks.over, asks.show, waited);
      return { kind: 'table', run } as const;
    }
    case 'spread': {
      const { over: inputs, show: results, draws, seed } = asks;
      const run = await spread(book, asker, { inputs, results, draws, seed }, waited);
      return { kind: 'spread', run } as const;
    }
    case 'best': {
      const run = await best(
        book,
        asker,
        { axes: asks.over, aims: asks.aims, seed: asks.seed },
        waited,
      );
      return { kind: 'best', run } as const;
    }
    case 'seek': {
      const { goal, over: span, keep } = asks;
      const found = await seek(book, asker, { goal, span, keep }, waited);
      return { kind: 'seek', found } as const;
    }
  }
}

const shownAs = (book: Workbook, cell: CellView, value: CellValue): string =>
  showValue(value, contextOf(book, cell)).text;

const headOf = ({ name = '', unit }: CellView): string =>
  unit === '' ? name : `${name} (${unit})`;

function plainRow(cells: readonly CellView[], row: Outcome, inputs: number): Record<string, Plain> {
  const values = [...row.set.map(asCell), ...row.values];
  return Object.fromEntries(
    cells
      .slice(0, inputs + row.values.length)
      .map((cell, i) => [cell.name ?? '', plainValue(values[i] ?? { kind: 'empty' })]),
  );
}

const failingWords = ({ failing }: Pick<Outcome, 'failing'>): string =>
  failing.map(({ name, state }) => `${state}: ${name}`).join('; ');

function printTable(book: Workbook, run: TableRun, as: As, io: Io): ExitCode {
  const { axes, results, rows, of } = run;
  const cells = [...axes.map(({ cell }) => cell), ...results];
  if (as === 'json') {
    printJson(io, {
      rows: rows.map((row) => plainRow(cells, row, axes.length)),
      failing: rows.flatMap(({ failing }, row) => failing.map((one) => ({ row, ...one }))),
      errors: rows.flatMap(({ values }, row) =>
        values.flatMap((value, i) =>
          value.kind === 'error'
            ? { row, name: results[i]?.name ?? '', error: value.error.word, says: value.error.says }
            : [],
        ),
      ),
    });
  } else if (as === 'csv') {
    const lines = rows.map((row) => [
      ...Object.values(plainRow(cells, row, axes.length)),
      failingWords(row),
    ]);
    for (const line of csvText([[...cells.map(({ name = '' }) => name), 'checks'], ...lines]))
      io.out(line);
  } else {
    const failed = rows.some(({ failing }) => failing.length > 0);
    const lines = rows.map((row) => [
      ...[...row.set.map(asCell), ...row.values].map((value, i) =>
        shownAs(book, cells[i] as CellView, value),
      ),
      ...(failed ? [failingWords(row)] : []),
    ]);
    const heads = [...cells.map(headOf), ...(failed ? ['checks'] : [])];
    for (const line of tableText([heads, ...lines])) io.out(line);
  }
  for (const says of complaintsOf(run)) io.err(says);
  if (rows.length < of) io.err(`Stopped after ${rows.length} of ${of} sets.`);
  const bad = rows.some(
    ({ values, failing }) =>
      values.some(({ kind }) => kind === 'error') || failing.some(({ state }) => state !== 'care'),
  );
  return rows.length < of || bad ? 1 : 0;
}

/** Each sentence once, with how many rows it is about. */
function complaintsOf({ rows, results }: TableRun): readonly string[] {
  const counts = new Map<string, number>();
  for (const { values } of rows) {
    for (const [i, value] of values.entries()) {
      if (value.kind !== 'error') continue;
      const sentence = `${results[i]?.name ?? ''} ${value.error.word} ${value.error.says}`;
      counts.set(sentence, (counts.get(sentence) ?? 0) + 1);
    }
  }
  return [...counts].map(([says, count]) => `${says} (${count} of ${rows.length} rows)`);
}

function printSpread(book: Workbook, run: Spread, as: As, io: Io): void {
  const { results, checks, draws, seed, stopped } = run;
  if (as === 'json') {
    printJson(io, {
      draws,
      seed,
      stopped: stopped / draws,
      results: results.map(({ cell, bins: _bins, matters, ...numbers }) => ({
        name: cell.name ?? '',
        ...numbers,
        matters: matters.map(({ cell: input, rank }) => ({ name: input.name ?? '', rank })),
      })),
      checks,
    });
    return;
  }
  const NUMBERS = ['least', 'p10', 'p50', 'p90', 'most'] as const;
  const heads = ['result', 'least', 'P10', 'P50', 'P90', 'most', 'moved most by'];
  const lines = results.map((one) => [
    one.cell.name ?? '',
    ...NUMBERS.map((key) =>
      as === 'csv' ? one[key] : shownAs(book, one.cell, { kind: 'number', number: one[key] }),
    ),
    one.matters.map(({ cell, rank }) => `${cell.name ?? ''} ${rank.toFixed(2)}`).join('; '),
  ]);
  if (as === 'csv') {
    for (const line of csvText([heads, ...lines])) io.out(line);
    return;
  }
  for (const line of tableText([heads, ...lines.map((line) => line.map(String))])) io.out(line);
  for (const { name, state, share } of checks) {
    io.out(`${state}: ${name} in ${(100 * share).toFixed(1)} % of ${draws} tries`);
  }
  const lost = results.filter((one) => one.lost > 0);
  for (const one of lost) io.out(`${one.cell.name ?? ''} came to no number in ${one.lost} tries.`);
  io.out(`${draws} tries, seed ${seed}; each input from the triangle over low, likely and high.`);
}

function printBest(book: Workbook, run: Best, as: As, io: Io): ExitCode {
  const { axes, aims, front, tried, of, kept, whole } = run;
  const cells = [...axes.map(({ cell }) => cell), ...aims.map(({ cell }) => cell)];
  const rows = front.map(({ set, comes, failing }) => ({
    set,
    values: comes.map((number) => ({ kind: 'number', number }) as const),
    failing,
  }));
  const says = whole
    ? `All ${of} sets were tried; ${kept} keep every check.`
    : `A search: ${tried} of ${of} sets were tried, ${kept} of them keep every check. There may be a better one.`;
  if (as === 'json') {
    printJson(io, {
      tried,
      of,
      kept,
      whole,
      front: rows.map((row) => plainRow(cells, row, axes.length)),
    });
  } else if (as === 'csv') {
    const lines = rows.map((row) => Object.values(plainRow(cells, row, axes.length)));
    for (const line of csvText([cells.map(({ name = '' }) => name), ...lines])) io.out(line);
    io.err(says);
  } else {
    const lines = rows.map((row) =>
      [...row.set.map(asCell), ...row.values].map((value, i) =>
        shownAs(book, cells[i] as CellView, value),
      ),
    );
    if (rows.length > 0) for (const line of tableText([cells.map(headOf), ...lines])) io.out(line);
    io.out(says);
  }
  return rows.length === 0 ? 1 : 0;
}
