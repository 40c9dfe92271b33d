import { type CellValue, type CellView, showValue, type Workbook } from '@kerfbook/workbook';
import { checkPlace, checkStanding, SweepFailed } from '@kerfbook/workbook/sweep';
import { Misuse, readArguments } from '../arguments.ts';
import { knownName } from '../entries.ts';
import type { ExitCode, Io } from '../io.ts';
import { openAndSet } from '../open-set.ts';
import { contextOf, isSwept, type Swept, sweptOf } from '../steps.ts';
import { tableText } from '../table-text.ts';
import { type Plain, plainValue } from '../values.ts';
import { printJson } from '../visible.ts';
import type { Command } from './command.ts';

/** Sets of inputs in one sweep. */
const MOST_SETS = 100_000;

/** One set of inputs and what the workbook comes to with it; what `sweep --json` prints is a list of them. */
interface SweepRow {
  /** In the workbook's own units. */
  readonly set: Readonly<Record<string, number>>;
  /** `null` for an empty cell and for one in error. */
  readonly show: Readonly<Record<string, Plain>>;
  /** Checks that are not passed. */
  readonly checks: readonly {
    readonly name: string;
    readonly state: 'care' | 'stop' | 'unknown';
  }[];
  readonly errors: readonly {
    readonly name: string;
    readonly error: string;
    readonly says: string;
  }[];
}

/** `sweep`: results of a workbook for many values of its inputs, as a table. */
export const sweepCommand: Command = {
  name: 'sweep',
  usage: 'sweep FILE --set name=from..to/step… [--set name=entry]… --show name,… [--json]',
  does: 'prints results for every step of one input or several, and which checks they fail',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      set: { type: 'string', multiple: true },
      show: { type: 'string', multiple: true },
      json: { type: 'boolean' },
    });
    const set = values.set ?? [];
    const fixed = set.filter((word) => !isSwept(word));
    const opened = await openAndSet('sweep', positionals, fixed, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    const swept = set.filter(isSwept).map((word) => sweptOf(book, word));
    if (swept.length === 0) throw new Misuse('Nothing is swept. Give --set name=from..to/step.');
    const shown = namesIn(book, values.show ?? []);
    for (const { cell, says } of refused) io.err(`${cell} ${says}`);
    const outcome = await sweep(book, swept, shown, io);
    if (outcome === undefined) return 2;
    const { rows, of } = outcome;
    if (values.json === true)
      printJson(
        io,
        rows.map((row) => row.report),
      );
    else for (const line of tableText(textsOf(swept, shown, rows))) io.out(line);
    for (const says of complaintsOf(rows)) io.err(says);
    if (rows.length < of) io.err(`Stopped after ${rows.length} of ${of} sets.`);
    return rows.length < of || refused.length > 0 ? 1 : exitCode(rows);
  },
};

interface Worked {
  readonly texts: readonly string[];
  readonly report: SweepRow;
}

function namesIn(book: Workbook, lists: readonly string[]): readonly CellView[] {
  const names = lists.flatMap((list) => list.split(',')).map((name) => name.trim());
  if (names.length === 0 || names.includes('')) {
    throw new Misuse('--show takes the names of cells, with commas between them.');
  }
  return names.map((name) => book.named(knownName(book, name)) as CellView);
}

/** Every set of values, the last input changing first. */
function setsOf(swept: readonly Swept[]): readonly (readonly number[])[] {
  const count = swept.reduce((product, { values }) => product * values.length, 1);
  if (count > MOST_SETS) {
    throw new Misuse(
      `These are ${count} sets of inputs; ${MOST_SETS} is the most. Take larger steps.`,
    );
  }
  return swept.reduce<readonly (readonly number[])[]>(
    (sets, { values }) => sets.flatMap((set) => values.map((value) => [...set, value])),
    [[]],
  );
}

async function sweep(book: Workbook, swept: readonly Swept[], shown: readonly CellView[], io: Io) {
  const sets = setsOf(swept);
  const checks = book.checkForms();
  const thread = io.startSweepThread();
  const rows: Worked[] = [];
  thread.sweeper.open(book.document());
  const running = thread.sweeper.sweep(
    {
      inputs: swept.map(({ cell }) => cell.at),
      results: [...shown.map(({ at }) => at), ...checks.map((_, i) => checkPlace(i))],
      sets,
    },
    (more) => {
      for (const results of more) {
        rows.push(workedRow({ book, swept, shown }, sets[rows.length] ?? [], results));
      }
    },
  );
  const listenNoMore = io.whenInterrupted(() => running.stop());
  try {
    await running.ended;
    return { rows, of: sets.length };
  } catch (error) {
    if (!(error instanceof SweepFailed)) throw error;
    io.err(error.message);
    return undefined;
  } finally {
    listenNoMore();
    await thread.end();
  }
}

interface About {
  readonly book: Workbook;
  readonly swept: readonly Swept[];
  readonly shown: readonly CellView[];
}

function workedRow(
  { book, swept, shown }: About,
  set: readonly number[],
  results: readonly CellValue[],
): Worked {
  const checks = book.checkForms().flatMap((check, i) => {
    const state = checkStanding(results[shown.length + i] ?? { kind: 'empty' }, check);
    return state === 'pass' ? [] : { name: check.name, state };
  });
  const named = shown.map((cell, i) => ({
    cell,
    value: results[i] ?? ({ kind: 'empty' } as const),
  }));
  const text = (cell: CellView, value: CellValue): string =>
    showValue(value, contextOf(book, cell)).text;
  return {
    texts: [
      ...swept.map(({ cell }, i) => text(cell, { kind: 'number', number: set[i] ?? 0 })),
      ...named.map(({ cell, value }) => text(cell, value)),
      checks.map(({ name, state }) => `${state}: ${name}`).join('; '),
    ],
    report: {
      set: Object.fromEntries(swept.map(({ name }, i) => [name, set[i] ?? 0])),
      show: Object.fromEntries(named.map(({ cell, value }) => [cell.name, plainValue(value)])),
      checks,
      errors: named.flatMap(({ cell, value }) =>
        value.kind === 'error'
          ? { name: cell.name ?? '', error: value.error.word, says: value.error.says }
          : [],
      ),
    },
  };
}

/** The table with its head: each name with its unit, and checks where one is failed. */
function textsOf(swept: readonly Swept[], shown: readonly CellView[], rows: readonly Worked[]) {
  const heads = [...swept.map(({ cell }) => cell), ...shown].map(({ name = '', unit }) =>
    unit === '' ? name : `${name} (${unit})`,
  );
  const failed = rows.some(({ report }) => report.checks.length > 0);
  const columns = heads.length + (failed ? 1 : 0);
  return [[...heads, 'checks'], ...rows.map(({ texts }) => texts)].map((row) =>
    row.slice(0, columns),
  );
}

/** Each sentence once, with how many rows it is about. */
function complaintsOf(rows: readonly Worked[]): readonly string[] {
  const counts = new Map<string, number>();
  for (const { report } of rows) {
    for (const { name, error, says } of report.errors) {
      const sentence = `${name} ${error} ${says}`;
      counts.set(sentence, (counts.get(sentence) ?? 0) + 1);
    }
  }
  return [...counts].map(([says, count]) => `${says} (${count} of ${rows.length} rows)`);
}

function exitCode(rows: readonly Worked[]): ExitCode {
  const bad = rows.some(
    ({ report }) => report.errors.length > 0 || report.checks.some(({ state }) => state !== 'care'),
  );
  return bad ? 1 : 0;
}
