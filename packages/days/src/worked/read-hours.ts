import {
  type KnownTable,
  knownTable,
  otherTables,
  type PartProblem,
  TableRow,
} from '@kerfbook/drawing';
import { LAST_DAY } from '../calendar/day-numbers.ts';
import { type DaysSource, MOST_HOURS } from '../read/read-operations.ts';

/** What was done once, as a row of the hours table says. */
export interface Worked {
  /** Id of its row. */
  readonly row: string;
  /** What was done, as it was written. */
  readonly operation: string;
  /** The day it was done on; undefined where that is not said. */
  readonly day: number | undefined;
  /** Hours of work; undefined where the row is of money alone. */
  readonly hours: number | undefined;
  /** What was paid for it, in the money of the workbook. */
  readonly spent: number | undefined;
  /** With this the operation was done. */
  readonly isDone: boolean;
}

/** What the hours table of a workbook comes to. */
export interface HoursReading {
  /** The workbook has such a table. */
  readonly found: boolean;
  /** In the order of the table. */
  readonly rows: readonly Worked[];
  /** What is wrong with its rows, each at its cell. */
  readonly problems: readonly PartProblem[];
}

const HOURS = `a number of hours, from 0 to ${MOST_HOURS}`;

/** Reads the first hours table of a workbook: what each operation really took. */
export function readHours(source: DaysSource): HoursReading {
  const table = knownTable(source, 'hours');
  if (table === undefined) return { found: false, rows: [], problems: [] };
  const lines = linesOf(source, table);
  const rows = lines.flatMap((line) => {
    const row = source.idsAt(line.at('operation'))?.row ?? `row-${line.row}`;
    return workedIn(line, row) ?? [];
  });
  return {
    found: true,
    rows,
    problems: [
      ...table.problems,
      ...otherTables(source, 'hours'),
      ...lines.flatMap(({ problems }) => problems),
    ],
  };
}

function linesOf(source: DaysSource, table: KnownTable): readonly TableRow[] {
  const lines: TableRow[] = [];
  for (let row = table.first; row < table.end; row += 1) {
    const line = new TableRow(source, table, row);
    if (!line.isBlank) lines.push(line);
  }
  return lines;
}

function workedIn(line: TableRow, row: string): Worked | undefined {
  const operation = line.words('operation');
  if (operation === undefined) {
    line.trouble(
      'operation',
      'These hours are of no operation, so they are counted nowhere. Say what was done.',
    );
  }
  const hours = hoursUnder(line);
  const spent = line.number('spent', 'an amount of money, 0 or more');
  const isDone = saysDone(line);
  if (hours === undefined && spent === undefined && !isDone && line.problems.length === 0) {
    line.trouble('hours', `"${operation}" has neither hours nor money. Write how long it took.`);
  }
  return operation === undefined
    ? undefined
    : { row, operation, day: dayUnder(line), hours, spent, isDone };
}

function hoursUnder(line: TableRow): number | undefined {
  const hours = line.number('hours', HOURS);
  if (hours === undefined || hours <= MOST_HOURS) return hours;
  line.trouble('hours', `Its hours should be ${HOURS}; they are not counted.`);
  return undefined;
}

function dayUnder(line: TableRow): number | undefined {
  const wants = 'a day, such as 2026-11-30';
  const day = line.number('day', wants);
  if (day === undefined || day <= LAST_DAY) return day === undefined ? undefined : Math.floor(day);
  line.trouble('day', `Its day should be ${wants}.`);
  return undefined;
}

/** A blank one does not say so: work is begun more often than ended. */
function saysDone(line: TableRow): boolean {
  const word = line.words('done')?.toLowerCase();
  if (word === undefined || word === 'no' || word === 'false') return false;
  if (word === 'yes' || word === 'true') return true;
  line.trouble('done', 'Its done should be yes or no, or blank for not yet.');
  return false;
}
