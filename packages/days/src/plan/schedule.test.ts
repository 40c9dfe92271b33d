import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf, sayDay, weekdayOf } from '../calendar/day-numbers.ts';
import { clock, DAY, HOUR, type Moment } from '../calendar/moments.ts';
import { type Shop, USUAL_SHOP } from '../calendar/shop-days.ts';
import { operation } from '../testing/job-book.ts';
import type { Job, Operation } from './operation.ts';
import { delayed, type Placed, type Schedule, scheduleJobs } from './schedule.ts';
import { workOn } from './work-on.ts';

const MONDAY = dayOf('2026-11-30') ?? 0;
const said = ({ day, hour }: Moment): string => `${sayDay(day).slice(0, 10).trim()} ${clock(hour)}`;
const plan = (operations: readonly Operation[], shop: Shop = USUAL_SHOP, from = MONDAY): Schedule =>
  scheduleJobs([{ name: 'Table', operations }], shop, from);
const times = ({ placed }: Schedule): Record<string, string> =>
  Object.fromEntries(
    placed.map(({ operation: { id }, start, worked, end }) => [
      id,
      [start, worked, end].map(said).join(', '),
    ]),
  );

describe('a job in working days', () => {
  it('breaks work off in the evening, waits by night and over Sunday, and goes on in the morning', () => {
    const schedule = plan([
      operation('mill', 9),
      operation('glue', 2, { after: ['mill'], waiting: 12 }),
      operation('sand', 7, { after: ['glue'] }),
      operation('finish', 3, { after: ['sand'], waiting: 72 }),
      operation('deliver', 1, { after: ['finish'] }),
    ]);
    expect(times(schedule)).toEqual({
      mill: 'Mon 30 Nov 08:00, Tue 1 Dec 11:00, Tue 1 Dec 11:00',
      glue: 'Tue 1 Dec 11:00, Tue 1 Dec 13:00, Wed 2 Dec 01:00',
      sand: 'Wed 2 Dec 08:00, Thu 3 Dec 09:00, Thu 3 Dec 09:00',
      finish: 'Thu 3 Dec 09:00, Thu 3 Dec 12:00, Sun 6 Dec 12:00',
      deliver: 'Mon 7 Dec 08:00, Mon 7 Dec 09:00, Mon 7 Dec 09:00',
    });
    expect(schedule.jobs[0]?.promise).toBe(dayOf('2026-12-07'));
    // The last coat may end as late as Friday at 8 for Monday at 8, which leaves two working hours on Thursday; the
    // glue needs to be on by 14 on Tuesday for Wednesday at 10.
    expect(schedule.placed.map(({ slack }) => slack)).toEqual([1, 1, 2, 2, 0]);
    expect(schedule.placed.map(({ critical }) => critical)).toEqual([
      false,
      false,
      false,
      false,
      true,
    ]);
  });

  it('begins on the next working day where it was to begin on a day off', () => {
    const shop = { ...USUAL_SHOP, off: [{ from: MONDAY, to: MONDAY + 1 }] };
    const schedule = plan([operation('mill', 1)], shop, MONDAY - 1);
    expect(schedule.begins).toBe(MONDAY + 2);
    expect(times(schedule)).toEqual({ mill: 'Wed 2 Dec 08:00, Wed 2 Dec 09:00, Wed 2 Dec 09:00' });
  });

  it('promises a working day, where the last coat dries over Sunday', () => {
    const schedule = plan([operation('finish', 6, { waiting: 5 * 24 + 12 })]);
    expect(schedule.jobs[0]?.end).toEqual({ day: dayOf('2026-12-06'), hour: 2 });
    expect(schedule.jobs[0]?.promise).toBe(dayOf('2026-12-07'));
  });

  it('holds clamps while glue sets, and does other things with the hands meanwhile', () => {
    const schedule = plan([
      operation('glue top', 1, { waiting: 4, machines: ['Clamps'] }),
      operation('glue base', 1, { waiting: 4, machines: ['the  clamps'] }),
      operation('turn legs', 3, { who: ['the maker'] }),
    ]);
    expect(times(schedule)).toEqual({
      'glue top': 'Mon 30 Nov 08:00, Mon 30 Nov 09:00, Mon 30 Nov 13:00',
      'turn legs': 'Mon 30 Nov 09:00, Mon 30 Nov 12:00, Mon 30 Nov 12:00',
      'glue base': 'Mon 30 Nov 13:00, Mon 30 Nov 14:00, Mon 30 Nov 18:00',
    });
  });

  it('waits for wood, and gives two makers something to do at once', () => {
    const schedule = plan([
      operation('mill', 2, { notBefore: MONDAY + 3 }),
      operation('drawers', 6, { who: ['Helper'] }),
      operation('jig', 2),
    ]);
    expect(times(schedule)).toMatchObject({
      mill: 'Thu 3 Dec 08:00, Thu 3 Dec 10:00, Thu 3 Dec 10:00',
      drawers: 'Mon 30 Nov 08:00, Mon 30 Nov 14:00, Mon 30 Nov 14:00',
      jig: 'Mon 30 Nov 08:00, Mon 30 Nov 10:00, Mon 30 Nov 10:00',
    });
  });

  it('lets the job that goes first have the hands first, and the other use what is left', () => {
    const jobs: readonly Job[] = [
      { name: 'Bench', priority: 2, operations: [operation('saw', 5)] },
      {
        name: 'Table',
        priority: 1,
        operations: [
          operation('glue', 1, { waiting: 26 }),
          operation('sand', 2, { after: ['glue'] }),
        ],
      },
    ];
    const schedule = scheduleJobs(jobs, USUAL_SHOP, MONDAY);
    expect(times(schedule)).toEqual({
      saw: 'Mon 30 Nov 09:00, Mon 30 Nov 14:00, Mon 30 Nov 14:00',
      glue: 'Mon 30 Nov 08:00, Mon 30 Nov 09:00, Tue 1 Dec 11:00',
      sand: 'Tue 1 Dec 11:00, Tue 1 Dec 13:00, Tue 1 Dec 13:00',
    });
    expect(schedule.jobs.map(({ promise }) => promise)).toEqual([MONDAY, MONDAY + 1]);
  });
});

describe('what there is to do on a day', () => {
  const schedule = plan([
    operation('mill', 8),
    operation('glue', 1, { after: ['mill'], waiting: 30 }),
    operation('legs', 12, { after: ['mill'] }),
  ]);
  const on = (day: number) => {
    const { inHand, waiting, couldBegin, isWorked } = workOn(schedule, day);
    const ids = (all: readonly Placed[]): string => all.map((one) => one.operation.id).join(' ');
    const hands = inHand.map(
      ({ placed, hours, from, begins, ends }) =>
        `${placed.operation.id} ${hours} h from ${from}${begins ? ' begins' : ''}${ends ? ' ends' : ''}`,
    );
    return { isWorked, hands, waiting: ids(waiting), could: ids(couldBegin) };
  };

  it('is what is in hand, what is left alone, and what could be begun too', () => {
    expect(on(MONDAY)).toEqual({
      isWorked: true,
      hands: ['mill 6 h from 8 begins'],
      waiting: '',
      could: '',
    });
    // The glue goes on first, so that it sets while the legs are made.
    expect(on(MONDAY + 1)).toEqual({
      isWorked: true,
      hands: ['mill 2 h from 8 ends', 'glue 1 h from 10 begins ends', 'legs 3 h from 11 begins'],
      waiting: 'glue',
      could: '',
    });
    expect(on(MONDAY + 5)).toMatchObject({ isWorked: false, hands: [] });
  });

  it('names what only waits for hands', () => {
    const busy = plan([operation('a', 6), operation('b', 2)]);
    expect(workOn(busy, MONDAY).couldBegin.map(({ operation: { id } }) => id)).toEqual(['b']);
  });
});

const quarters = (max: number) => fc.integer({ min: 0, max }).map((count) => count / 4);
const jobs = fc.array(
  fc.record({
    priority: fc.integer({ min: 0, max: 1 }),
    rows: fc.array(
      fc.record({
        hands: quarters(40),
        waiting: quarters(60),
        after: fc.array(fc.nat(), { maxLength: 2 }),
        who: fc.constantFrom([], ['Helper'], ['Helper', 'the maker']),
        machines: fc.constantFrom([], [], ['clamps'], ['saw', 'clamps']),
        notBefore: fc.option(fc.integer({ min: MONDAY, max: MONDAY + 9 }), { nil: undefined }),
      }),
      { minLength: 1, maxLength: 6 },
    ),
  }),
  { minLength: 1, maxLength: 2 },
);
const made = (drawn: typeof jobs extends fc.Arbitrary<infer T> ? T : never): readonly Job[] =>
  drawn.map(({ priority, rows }, job) => ({
    name: `${job}`,
    priority,
    operations: rows.map(({ hands, after, notBefore, ...more }, i) =>
      operation(`${job}/${i}`, hands, {
        ...more,
        ...(notBefore === undefined ? {} : { notBefore }),
        after: i === 0 ? [] : after.map((one) => `${job}/${one % i}`),
      }),
    ),
  }));
const SHOP: Shop = {
  hoursADay: 7.5,
  begins: 7.25,
  week: [true, true, true, true, false, true, false],
  off: [{ from: MONDAY + 2, to: MONDAY + 3 }],
};

/** Whether one works at a moment, said anew. */
const works = (at: number): boolean => {
  const day = Math.floor(at / DAY);
  const hour = (at - day * DAY) / HOUR;
  const isOff = SHOP.off.some(({ from, to }) => day >= from && day <= to);
  return SHOP.week[weekdayOf(day)] === true && !isOff && hour >= 7.25 && hour < 14.75;
};

describe('any plan', () => {
  it('gives each operation its hours, after all it waits for, and nobody two things at once', () => {
    fc.assert(
      fc.property(jobs, (drawn) => {
        const { placed } = scheduleJobs(made(drawn), SHOP, MONDAY);
        const byId = new Map(placed.map((one) => [one.operation.id, one]));
        const taken = new Set<string>();
        for (const { operation: own, seconds } of placed) {
          const { start, worked, end } = seconds;
          for (const id of own.after) {
            expect(byId.get(id)?.seconds.end ?? 0).toBeLessThanOrEqual(start);
          }
          expect(start).toBeGreaterThanOrEqual((own.notBefore ?? MONDAY) * DAY);
          expect(end - worked).toBe(own.waiting * HOUR);
          let work = 0;
          for (let at = start; at < end; at += HOUR / 4) {
            if (at < worked && works(at)) work += 1 / 4;
            const who = own.who.length === 0 ? ['the maker'] : own.who;
            const held = [...(at < worked ? who : []), ...own.machines].map(
              (one) => `${one} ${at}`,
            );
            for (const one of held) {
              expect(taken.has(one)).toBe(false);
              taken.add(one);
            }
          }
          expect(work).toBe(own.handsOn);
          if (own.handsOn > 0) expect(works(start) && works(worked - HOUR / 4)).toBe(true);
        }
      }),
      { seed: 20, numRuns: 200 },
    );
  });

  it('moves no job by a delay within the slack, and some job by one beyond it', () => {
    fc.assert(
      fc.property(jobs, fc.nat(), (drawn, pick) => {
        const schedule = scheduleJobs(made(drawn), SHOP, MONDAY);
        const one = schedule.placed[pick % schedule.placed.length] as Placed;
        const ends = ({ jobs: all }: Schedule) => all.map(({ end }) => end.day * 24 + end.hour);
        const late = (hours: number) => delayed(schedule, one.operation.id, hours, one.job);
        expect(late(0).placed).toEqual(schedule.placed);
        expect(ends(late(one.slack))).toEqual(ends(schedule));
        const after = ends(late(one.slack + 0.25));
        expect(after.every((end, i) => end >= (ends(schedule)[i] ?? 0))).toBe(true);
        expect(after).not.toEqual(ends(schedule));
      }),
      { seed: 22, numRuns: 200 },
    );
  });

  it('is never shorter than the best of all orders, and often it', () => {
    // Without other hands to wait for, the best is found by trying every order of the operations.
    const small = fc.array(
      fc.tuple(quarters(16), quarters(40), fc.option(fc.nat(), { nil: undefined })),
      {
        minLength: 2,
        maxLength: 6,
      },
    );
    let best = 0;
    let all = 0;
    fc.assert(
      fc.property(small, (rows) => {
        const operations = rows.map(([hands, waiting, after], i) =>
          operation(`o${i}`, hands + 0.25, {
            waiting,
            after: i === 0 || after === undefined ? [] : [`o${after % i}`],
          }),
        );
        const found = Math.max(...plan(operations, SHOP).placed.map(({ seconds }) => seconds.end));
        const shortest = Math.min(...ordersOf(operations).map(endInOrder));
        expect(found).toBeGreaterThanOrEqual(shortest);
        all += 1;
        if (found === shortest) best += 1;
      }),
      { seed: 23, numRuns: 100 },
    );
    expect(best / all).toBeGreaterThan(0.8);
  });
});

function ordersOf(operations: readonly Operation[]): readonly (readonly Operation[])[] {
  if (operations.length === 0) return [[]];
  return operations.flatMap((one) => {
    const others = operations.filter((other) => other !== one);
    return ordersOf(others).map((order) => [one, ...order]);
  });
}

/** When one pair of hands is done that does the operations in an order, by the clock; never where the order is none. */
function endInOrder(order: readonly Operation[]): number {
  const ends = new Map<string, number>();
  let at = MONDAY * DAY;
  for (const { id, handsOn, waiting, after } of order) {
    if (after.some((one) => !ends.has(one))) return Number.POSITIVE_INFINITY;
    at = Math.max(at, ...after.map((one) => ends.get(one) ?? 0));
    for (let left = handsOn; left > 0; at += HOUR / 4) if (works(at)) left -= 1 / 4;
    ends.set(id, at + waiting * HOUR);
  }
  return Math.max(...ends.values());
}
