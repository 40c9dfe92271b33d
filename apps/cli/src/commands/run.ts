import { type CellView, type CheckState, type Workbook, withUnit } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { entryOf, knownName, placeOf, type } from '../entries.ts';
import type { ExitCode, Io } from '../io.ts';
import { openBook } from '../open.ts';
import { provePlans } from '../prove.ts';
import { type Plain, plainValue } from '../values.ts';
import { printJson } from '../visible.ts';
import type { Command } from './command.ts';

interface NameReport {
  readonly cell: string;
  readonly quantity: string;
  /** In the workbook's own units; `null` for an empty cell and for one in error. */
  readonly value: Plain;
  readonly text: string;
}

interface CheckReport {
  readonly name: string;
  readonly state: 'pass' | 'care' | 'stop';
  readonly says: string;
}

interface ErrorReport {
  readonly cell: string;
  readonly error: string;
  readonly says: string;
}

/** What `run --json` prints. */
interface RunReport {
  readonly names: Readonly<Record<string, NameReport>>;
  readonly checks: readonly CheckReport[];
  readonly errors: readonly ErrorReport[];
}

/** `run`: opens a workbook, types into named cells, prints what the names come to. */
export const runCommand: Command = {
  name: 'run',
  usage: 'run FILE [--set name=entry]… [--get name]… [--json]',
  does: 'opens a workbook, types entries into named cells and prints results',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      set: { type: 'string', multiple: true },
      get: { type: 'string', multiple: true },
      json: { type: 'boolean' },
    });
    const [path, ...more] = positionals;
    if (path === undefined) throw new Misuse('There is no workbook to run.');
    if (more.length > 0) throw new Misuse(`run takes one workbook; "${more[0]}" is one too many.`);
    const opened = await openBook(path, io);
    if (!opened.ok) {
      io.err(opened.says);
      return 2;
    }
    const { book } = opened;
    const entries = (values.set ?? []).map((word) => entryOf(book, word));
    const wanted = (values.get ?? []).map((name) => knownName(book, name));
    const refused = entries.flatMap((entry) => type(book, entry));
    await provePlans(book);
    const report = reportOf(book, wanted, refused);
    if (values.json === true) printJson(io, report);
    else printReport(book, report, io);
    return exitCode(report);
  },
};

function reportOf(
  book: Workbook,
  wanted: readonly string[],
  refused: readonly ErrorReport[],
): RunReport {
  const names = wanted.length > 0 ? wanted : book.names().map(({ name }) => name);
  const problems = book
    .problems()
    .map(({ address, word, says }) => ({ cell: address, error: word, says }));
  return {
    names: Object.fromEntries(names.map((name) => [name, nameReport(book, name)])),
    checks: book.checks().map(checkReport),
    errors: [...refused, ...problems],
  };
}

function nameReport(book: Workbook, name: string): NameReport {
  const cell = book.named(name);
  if (cell === undefined) throw new Misuse(`There is no cell called ${name}.`);
  return {
    cell: placeOf(book, cell),
    quantity: cell.quantity ?? plainQuantity(cell),
    value: plainValue(cell.value),
    text: cell.shown.text,
  };
}

function plainQuantity({ value }: CellView): string {
  return value.kind === 'text' || value.kind === 'logical' ? value.kind : 'number';
}

/** A check that cannot tell has not been passed: it stops, and its sentence says why. */
function checkReport({ name, state, says }: CheckState): CheckReport {
  return { name, state: state === 'unknown' ? 'stop' : state, says };
}

function exitCode({ checks, errors }: RunReport): ExitCode {
  return errors.length > 0 || checks.some(({ state }) => state === 'stop') ? 1 : 0;
}

function printReport(book: Workbook, { names, checks, errors }: RunReport, io: Io): void {
  const width = Math.max(0, ...Object.keys(names).map((name) => name.length));
  for (const [name, { text, value }] of Object.entries(names)) {
    const unit = book.named(name)?.unit ?? '';
    io.out(`${name.padEnd(width)}  ${typeof value === 'number' ? withUnit(text, unit) : text}`);
  }
  for (const { name, state, says } of checks) {
    // What a check is called says what should be: before the sentence it would read as if it were so.
    if (state !== 'pass') io.err(`${state}: ${says} (${name})`);
  }
  for (const { cell, error, says } of errors) io.err(`${cell} ${error} ${says}`);
}
