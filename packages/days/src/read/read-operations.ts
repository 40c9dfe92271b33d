import {
  type KnownTable,
  knownTable,
  listed,
  otherTables,
  type PartProblem,
  TableRow,
  type TableSource,
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { LAST_DAY } from '../calendar/day-numbers.ts';
import type { Operation } from '../plan/operation.ts';
import { beforeEach, circlesOf, sameName } from './after.ts';

/** What is read of an open workbook for the days of a job. */
export type DaysSource = TableSource & Pick<OpenWorkbook, 'idsAt'>;

/** What the operations table of a workbook comes to. */
export interface OperationsReading {
  /** The workbook has such a table. */
  readonly found: boolean;
  /** In the order of the table. */
  readonly operations: readonly Operation[];
  /** What is wrong with its rows, each at its cell. */
  readonly problems: readonly PartProblem[];
  /** Names of operations that wait for each other; nothing can be planned while there are any. */
  readonly circles: readonly (readonly string[])[];
}

/** More rows than this are not read. */
export const MOST_OPERATIONS = 500;
/** More hours than this are a slip of the pen: common practice, no source. */
export const MOST_HOURS = 5000;

const HOURS = `a number of hours, from 0 to ${MOST_HOURS}`;

/** A row as it is read before it is known what comes before it. */
interface Row extends Omit<Operation, 'after'> {
  readonly line: TableRow;
  readonly after: string | undefined;
}

/** Reads the first operations table of a workbook. */
export function readOperations(source: DaysSource): OperationsReading {
  const table = knownTable(source, 'operations');
  if (table === undefined) return { found: false, operations: [], problems: [], circles: [] };
  const problems: PartProblem[] = [...table.problems, ...otherTables(source, 'operations')];
  const rows = rowsOf(source, table);
  if (rows.length > MOST_OPERATIONS) {
    problems.push({
      at: rows[MOST_OPERATIONS]?.line.at('operation') ?? headAt(table),
      says: `The days are planned of ${MOST_OPERATIONS} operations at most; this one and those below are not read.`,
    });
  }
  const read = rows.slice(0, MOST_OPERATIONS);
  const before = beforeEach(read);
  const operations = read.map(({ line, after, ...row }, i): Operation => {
    const { ids, unknown } = before[i] ?? { ids: [], unknown: [] };
    for (const word of unknown) {
      line.trouble(
        'after',
        `Nothing in this table is called "${word}", so "${row.name}" does not wait for it. Write it as it stands under operation, or "start" for nothing.`,
      );
    }
    return { ...row, after: ids };
  });
  noteTwice(read);
  const circles = noteCircles(read, operations);
  problems.push(...read.flatMap(({ line }) => line.problems));
  if (read.length === 0) {
    problems.push({
      at: headAt(table),
      says: 'The operations table has nothing in it. Write a row for each piece of work, with its hours under hands-on and waiting.',
    });
  }
  return { found: true, operations, problems, circles };
}

const headAt = ({ sheet, first, columns }: KnownTable) => ({
  sheet,
  row: first - 1,
  column: columns.get('operation') ?? 0,
});

function rowsOf(source: DaysSource, table: KnownTable): readonly Row[] {
  const rows: Row[] = [];
  for (let row = table.first; row < table.end; row += 1) {
    const line = new TableRow(source, table, row);
    if (!line.isBlank) rows.push(rowOf(source, line));
  }
  return rows;
}

function rowOf(source: DaysSource, line: TableRow): Row {
  const name = line.words('operation');
  if (name === undefined)
    line.trouble('operation', 'This operation has no name. Say what is done.');
  const handsOn = hoursUnder(line, 'hands-on');
  const waiting = hoursUnder(line, 'waiting');
  if (handsOn === undefined && waiting === undefined && line.problems.length === 0) {
    line.trouble(
      'hands-on',
      `"${name}" has no hours, neither hands-on nor waiting, so it is planned as if it took no time. Write how long it takes; 0 where it is not needed.`,
    );
  }
  const notBefore = dayUnder(line);
  return {
    line,
    id: source.idsAt(line.at('operation'))?.row ?? `row-${line.row}`,
    name: name ?? `Row ${line.row + 1}`,
    handsOn: handsOn ?? 0,
    waiting: waiting ?? 0,
    after: line.words('after'),
    who: line.list('who'),
    machines: line.list('machine'),
    ...spreadUnder(line, handsOn ?? 0),
    ...(notBefore === undefined ? {} : { notBefore }),
  };
}

/** Hours under a head; undefined where there are none, or none that can be. */
function hoursUnder(line: TableRow, head: string): number | undefined {
  const hours = line.number(head, HOURS);
  if (hours === undefined || hours <= MOST_HOURS) return hours;
  line.trouble(head, `Its ${head} should be ${HOURS}; it is left out of the days.`);
  return undefined;
}

/** The least and the most hours it takes. Where one of them is not known, it is as many as it says hands-on. */
function spreadUnder(line: TableRow, handsOn: number) {
  const least = hoursUnder(line, 'least') ?? handsOn;
  const most = hoursUnder(line, 'most') ?? handsOn;
  if (least <= handsOn && handsOn <= most) return { least, most };
  line.trouble(
    least > handsOn ? 'least' : 'most',
    `Its hands-on hours should be between its least and its most. Until they are, it is planned as taking just its hands-on hours.`,
  );
  return { least: handsOn, most: handsOn };
}

function dayUnder(line: TableRow): number | undefined {
  const wants = 'a day, such as 2026-11-30';
  const day = line.number('not before', wants);
  if (day === undefined) return undefined;
  if (day <= LAST_DAY) return Math.floor(day);
  line.trouble('not before', `Its not before should be ${wants}.`);
  return undefined;
}

/** Of two operations with one name, `after` means the first. */
function noteTwice(rows: readonly Row[]): void {
  const seen = new Set<string>();
  for (const { line, name } of rows) {
    if (seen.has(sameName(name))) {
      line.trouble(
        'operation',
        `Two operations are called "${name}"; where one comes after it, the first is meant. Call this one otherwise.`,
      );
    }
    seen.add(sameName(name));
  }
}

/** Says of each circle, at its first member, who is in it. */
function noteCircles(rows: readonly Row[], operations: readonly Operation[]) {
  const circles = circlesOf(new Map(operations.map(({ id, after }) => [id, after])));
  return circles.map((circle) => {
    const members = rows.filter(({ id }) => circle.includes(id));
    const names = members.map(({ name }) => name);
    const said = listed(names.map((name) => `"${name}"`));
    members[0]?.line.trouble(
      'after',
      names.length === 1
        ? `${said} comes after itself. Take its own name out of its after.`
        : `${said} wait for each other in a circle, so that none can begin. Take one of them out of an after.`,
    );
    return names;
  });
}
