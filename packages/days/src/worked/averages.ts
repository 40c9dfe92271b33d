import type { BookDocument, CellDocument } from '@kerfbook/workbook';
import { sameName } from '../read/after.ts';
import { MOST_HOURS } from '../read/read-operations.ts';
import type { Worked } from './read-hours.ts';
import { takenOf } from './taken.ts';

/** What one operation took in the shop's workbooks. */
export interface Average {
  /** What it is called. */
  readonly name: string;
  /** In how many workbooks it was done. */
  readonly count: number;
  /** Hours it took on average. */
  readonly mean: number;
  /** The fewest hours it took. */
  readonly least: number;
  /** The most hours it took. */
  readonly most: number;
  /** In how many more it was begun and nobody said that it is done: those are not counted. */
  readonly begun: number;
}

/**
 * What operations took, over workbooks: the mean of the hours that each workbook needed to get one done, by its name.
 * One that is not done yet would make the mean too small, so it is not counted. A copy of a workbook has
 * its rows too: they are counted once.
 * @param books the hours of each workbook
 * @param besides hours that are not counted: those of the job that is to be estimated
 */
export function averagesOf(
  books: readonly (readonly Worked[])[],
  besides: readonly Worked[] = [],
): ReadonlyMap<string, Average> {
  const counted = new Set(besides.flatMap(signOf));
  const all = new Map<string, { name: string; hours: number[]; begun: number }>();
  for (const rows of books) {
    const own = rows.filter((row) => !signOf(row).some((sign) => counted.has(sign)));
    for (const sign of own.flatMap(signOf)) counted.add(sign);
    for (const { name, worked, times, isDone } of takenOf([], own).operations) {
      if (times === 0) continue;
      const known = all.get(sameName(name)) ?? { name, hours: [], begun: 0 };
      if (isDone) known.hours.push(worked);
      else known.begun += 1;
      all.set(sameName(name), known);
    }
  }
  return new Map(
    [...all].flatMap(([key, { name, hours, begun }]) =>
      hours.length === 0
        ? []
        : [
            [
              key,
              {
                name,
                count: hours.length,
                mean: hours.reduce((so, one) => so + one, 0) / hours.length,
                least: Math.min(...hours),
                most: Math.max(...hours),
                begun,
              },
            ],
          ],
    ),
  );
}

/** What tells a row that was copied; nothing where no day is written, since two jobs may well have the same hours. */
const signOf = ({ row, operation, day, hours }: Worked): readonly string[] =>
  day === undefined ? [] : [[row, sameName(operation), day, hours].join('|')];

/** What an operation took on average, by its name. */
export const averageFor = (
  averages: ReadonlyMap<string, Average>,
  name: string,
): Average | undefined => averages.get(sameName(name));

/**
 * The hours of a workbook that is kept and not open, read of its text alone: what was typed, and no formula, since
 * nothing is worked out.
 */
export function hoursKept({ sheets, tables }: BookDocument): readonly Worked[] {
  const table = tables.find(({ kind }) => kind === 'hours');
  const sheet = sheets.find(({ id }) => id === table?.sheet);
  if (table === undefined || sheet === undefined) return [];
  const header = sheet.rows.findIndex(({ id }) => id === table.header);
  const last = sheet.rows.findIndex(({ id }) => id === table.last);
  const heads = new Map<string, string>();
  for (const { id } of sheet.columns) {
    const word = typed(sheet.rows[header]?.cells?.[id]);
    if (typeof word === 'string' && !heads.has(sameName(word))) heads.set(sameName(word), id);
  }
  return sheet.rows.slice(header + 1, last + 1).flatMap(({ id, cells }) => {
    const under = (head: string): unknown => typed(cells?.[heads.get(head) ?? '']);
    const number = (head: string, most = Number.MAX_VALUE): number | undefined => {
      const value = under(head);
      return typeof value === 'number' && value >= 0 && value <= most ? value : undefined;
    };
    const operation = under('operation');
    if (typeof operation !== 'string' || operation.trim() === '') return [];
    const done = under('done');
    return [
      {
        row: id,
        operation: operation.trim(),
        day: number('day'),
        hours: number('hours', MOST_HOURS),
        spent: number('spent'),
        isDone: done === true || (typeof done === 'string' && /^\s*(yes|true)\s*$/i.test(done)),
      },
    ];
  });
}

const typed = (cell: CellDocument | undefined): unknown =>
  cell === undefined || cell.formula !== undefined ? undefined : cell.value;
