import {
  clock,
  type DayOfWork,
  dayOfClock,
  isUncertain,
  planBook,
  type Schedule,
  sayDay,
  takesTime,
  weekdayOf,
  workOn,
} from '@kerfbook/days';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { useEffect, useMemo, useRef } from 'react';
import { toneOf } from '../days/days-chart.tsx';
import { daysDrawn, drawDays } from '../days/draw-days.ts';
import { hoursSaid, oddsSaid } from '../days/said.ts';
import { type Odds, useLikelihood } from '../days/use-likelihood.ts';
import type { Block } from '../paper/blocks.tsx';
import { headingBlock, sentenceBlock, tableBlocks, titleBlock } from './pieces.tsx';

/** More days than this are no chart on a page any more: each would be narrower than its number. */
const MOST_DRAWN = 70;

const planned = (book: OpenWorkbook) => planBook(book, { otherwise: dayOfClock(new Date()) + 1 });

/** How likely the days of a workbook are, as far as the paper is to say so. */
export function useDaysOdds(book: OpenWorkbook, changes: number, wanted: boolean): Odds {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within.
  const schedule = useMemo(
    () => (wanted ? planned(book).schedule : undefined),
    [book, changes, wanted],
  );
  const { likelihood, failed } = useLikelihood(schedule);
  // Pages are laid out anew only where there is something else to say.
  return useMemo(() => ({ likelihood, failed }), [likelihood, failed]);
}

/** What is done on each day, what is left alone meanwhile, what it takes, and the promise; undefined without operations. */
export function daysSheet(
  book: OpenWorkbook,
  { width }: { readonly width: number },
  { likelihood: [odds] = [], failed }: Odds = {},
): Block[] | undefined {
  const { schedule, isFromSaid } = planned(book);
  if (schedule === undefined || !schedule.placed.some(({ operation }) => takesTime(operation))) {
    return undefined;
  }
  const { begins, shop, jobs } = schedule;
  const { from, to } = daysDrawn(schedule);
  const promise = jobs[0]?.promise ?? begins;
  const hours = hoursSaid(shop.hoursADay);
  const opens = `${clock(shop.begins)} to ${clock(shop.begins + shop.hoursADay)}`;
  return [
    titleBlock('days', 'Days', `Done by ${sayDay(promise)}. A working day: ${hours}, ${opens}.`),
    ...(isFromSaid
      ? []
      : [
          sentenceBlock(
            'days no start',
            `No start day is set: this is how it is if the work begins on ${sayDay(begins)}.`,
            true,
          ),
        ]),
    ...(isUncertain(schedule)
      ? [
          sentenceBlock(
            'days odds',
            odds === undefined
              ? (failed ?? 'How likely that day is is not worked out yet.')
              : oddsSaid(odds),
            true,
          ),
        ]
      : []),
    ...(to - from >= MOST_DRAWN ? [] : [chartBlock(book, schedule, width)]),
    sentenceBlock('days spare', spareSaid(schedule)),
    ...weeksOf(from, to).flatMap((week) => weekBlocks(schedule, week)),
  ];
}

/** Which operations delay the promise by whatever delays them. */
function spareSaid({ placed }: Schedule): string {
  const tight = placed.filter(({ operation, critical }) => critical && takesTime(operation));
  const names = tight.map(({ operation }) => operation.name);
  return names.length === 0
    ? 'Every operation has some time to spare.'
    : `No time to spare: ${names.join(', ')}. What delays ${names.length === 1 ? 'it' : 'one of these'} delays the day it is done.`;
}

function chartBlock(book: OpenWorkbook, schedule: Schedule, width: number): Block {
  return {
    key: 'days chart',
    node: <PaperChart schedule={schedule} width={width} wood={toneOf(book).light} />,
  };
}

const PX_PER_MM = 96 / 25.4;
const PAPER_ROW = 22;
const WIDEST_DAY = 74;

/** The chart as it is drawn on paper: the light tone, whatever the screen has. */
function PaperChart({
  schedule,
  width,
  wood,
}: {
  readonly schedule: Schedule;
  readonly width: number;
  readonly wood: string;
}) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const here = place.current;
    if (here === null) return undefined;
    const { from, to } = daysDrawn(schedule);
    const names = 188;
    const room = Math.floor(width * PX_PER_MM);
    const drawn = drawDays(schedule, {
      width: Math.min(room, names + WIDEST_DAY * (to - from + 1)),
      names,
      row: PAPER_ROW,
      wood,
    });
    for (const part of drawn.querySelectorAll('[aria-label]')) part.removeAttribute('aria-label');
    drawn.setAttribute('role', 'img');
    drawn.setAttribute(
      'aria-label',
      'The operations over the days; the tables below say the same.',
    );
    here.append(drawn);
    return () => drawn.remove();
  }, [schedule, width, wood]);
  const rows = schedule.placed.filter(({ operation }) => takesTime(operation)).length;
  // It is measured before it is drawn.
  return (
    <div className="days-on-paper">
      <div ref={place} style={{ blockSize: `${48 + PAPER_ROW * rows}px` }} />
      <p>Filled: worked at. Hatched: left alone. Gray: a day off. The thick line: promised.</p>
    </div>
  );
}

/** The days from one to another, a list for each week, Monday first. */
function weeksOf(from: number, to: number): readonly (readonly number[])[] {
  const weeks: number[][] = [];
  for (let day = from; day <= to; day += 1) {
    if (day === from || weekdayOf(day) === 0) weeks.push([]);
    weeks.at(-1)?.push(day);
  }
  return weeks;
}

/** Without its year, which the week says. */
const shortDay = (day: number): string => sayDay(day).replace(/ \d{4}$/, '');

function weekBlocks(schedule: Schedule, week: readonly number[]): Block[] {
  const [first = 0] = week;
  const rows = week.flatMap((day) => dayRows(workOn(schedule, day)));
  if (rows.length === 0) return [];
  const monday = first - weekdayOf(first);
  return [
    headingBlock(`days week ${first}`, `Week of ${sayDay(monday)}`),
    ...tableBlocks(
      `days table ${first}`,
      `Week of ${sayDay(monday)}`,
      [
        { heads: 'Day', share: 14 },
        { heads: 'From', share: 8 },
        { heads: 'What is done', share: 40 },
        { heads: 'Hours', share: 9, end: true },
        { heads: 'Needed', share: 14 },
        { heads: 'Took', share: 8 },
      ],
      rows.map(({ cells }) => cells),
      rows.map(({ isWork }) => (isWork ? 1 : 0)),
    ).map((block, i) => (rows[i + 1]?.isSameDay === true ? { ...block, together: true } : block)),
  ];
}

interface Row {
  readonly cells: readonly string[];
  /** It is ticked off once it is done. */
  readonly isWork: boolean;
  readonly isSameDay: boolean;
}

function dayRows({ day, isWorked, inHand, waiting }: DayOfWork): readonly Row[] {
  const work = inHand.map(({ placed, hours, from, begins, ends }) => {
    const { name, who, machines } = placed.operation;
    const part = begins ? (ends ? '' : ', begun') : ends ? ', to its end' : ', gone on with';
    const needed = [...who, ...machines].join(', ');
    return {
      cells: [clock(from), `${name}${part}`, `${Math.round(hours * 100) / 100}`, needed, ''],
      isWork: true,
    };
  });
  const left = waiting.map(({ operation: { name, machines }, end }) => ({
    cells: [
      '',
      `${isWorked ? '' : 'Day off. '}${name}: left alone until ${shortDay(end.day)}, ${clock(end.hour)}`,
      '',
      machines.length === 0 ? '' : `holds ${machines.join(', ')}`,
      '',
    ],
    isWork: false,
  }));
  return [...work, ...left].map(({ cells, isWork }, i) => ({
    cells: [i === 0 ? shortDay(day) : '', ...cells],
    isWork,
    isSameDay: i > 0,
  }));
}
