import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf, sayDay, weekdayOf } from '../calendar/day-numbers.ts';
import { DAY, HOUR } from '../calendar/moments.ts';
import { delayed, type Schedule } from '../plan/schedule.ts';
import { type JobRow, jobBook } from '../testing/job-book.ts';
import { type JobsInTurn, type JobToDo, planJobs } from './plan-jobs.ts';

const MONDAY = dayOf('2026-11-30') ?? 0;

const TABLE: readonly JobRow[] = [
  { operation: 'Mill', 'hands-on': 8 },
  { operation: 'Glue', 'hands-on': 1, waiting: 24, after: 'Mill' },
  { operation: 'Sand', 'hands-on': 4, after: 'Glue' },
];

function planned(jobs: readonly JobToDo[], from = MONDAY): JobsInTurn {
  const plan = planJobs(jobs, from);
  if (!plan.ok) throw new Error(plan.says);
  return plan;
}

const job = (
  name: string,
  rows: readonly JobRow[] = TABLE,
  more: Omit<Partial<JobToDo>, 'name' | 'source'> & {
    readonly named?: Readonly<Record<string, string | number>>;
  } = {},
): JobToDo => {
  const { named, ...rest } = more;
  return { name, source: jobBook(rows, named), ...rest };
};

const told = ({ jobs }: JobsInTurn): readonly string[] =>
  jobs.map(({ name, promise, isLate }) => `${name} ${sayDay(promise)}${isLate ? ' late' : ''}`);

/** Works from 8 to 14, Monday to Friday: what the usual shop does, said here again. */
const works = (seconds: number): boolean => {
  const day = Math.floor(seconds / DAY);
  const hour = (seconds - day * DAY) / HOUR;
  return weekdayOf(day) < 5 && hour >= 8 && hour < 14;
};

/** What is wrong with a schedule, quarter of an hour by quarter of an hour. */
function faultsOf({ placed }: Schedule): readonly string[] {
  const faults: string[] = [];
  const taken = new Map<string, string>();
  const ends = new Map(placed.map((one) => [`${one.job} ${one.operation.id}`, one.seconds.end]));
  for (const { job: of, operation: own, seconds } of placed) {
    const called = `${of} ${own.id}`;
    for (const id of own.after) {
      if ((ends.get(`${of} ${id}`) ?? 0) > seconds.start) faults.push(`${called} before ${id}`);
    }
    let work = 0;
    for (let at = seconds.start; at < seconds.end; at += HOUR / 4) {
      const isWork = at < seconds.worked;
      if (isWork && works(at)) work += 1 / 4;
      const hands = isWork ? (own.who.length === 0 ? ['the maker'] : own.who) : [];
      for (const one of [...hands, ...own.machines]) {
        const key = `${one.toLowerCase()} ${at}`;
        if (taken.has(key)) faults.push(`${one} is at ${called} and ${taken.get(key)} at once`);
        taken.set(key, called);
      }
    }
    if (Math.abs(work - own.handsOn) > 1e-9) faults.push(`${called} is worked at for ${work} h`);
    if (seconds.end - seconds.worked !== own.waiting * HOUR) faults.push(`${called} waits else`);
  }
  return faults;
}

describe('several jobs in one shop', () => {
  it('begin with what is begun, then with what is due first; hands go on while glue sets', () => {
    const plan = planned([
      job('late', TABLE, { due: MONDAY + 30 }),
      job('soon', TABLE, { due: MONDAY + 1 }),
      job('no day'),
      job('begun', TABLE, { isBegun: true }),
    ]);
    expect(plan.jobs.map(({ name }) => name)).toEqual(['begun', 'soon', 'late', 'no day']);
    expect(faultsOf(plan.schedule)).toEqual([]);
    // By hand, 6 hours a day from 8: begun is milled until Tuesday at 10 and glued until 11; once the glue has set, on
    // Wednesday at 11, it is sanded until Thursday at 9. Soon is milled from then until Friday at 11, glued until 12, and
    // sanded on Monday. Late is milled from Monday at 12 until Tuesday at 14, glued on Wednesday, sanded on Thursday from 9
    // to 13. The last is milled from there until Monday at 9, glued until 10, and sanded on Tuesday.
    expect(told(plan)).toEqual([
      'begun Thu 3 Dec 2026',
      'soon Mon 7 Dec 2026 late',
      'late Thu 10 Dec 2026',
      'no day Tue 15 Dec 2026',
    ]);
  });

  it('turn to the next job while glue of the first sets', () => {
    const plan = planned([
      job('one', [
        { operation: 'Glue', 'hands-on': 1, waiting: 4 },
        { operation: 'Sand', 'hands-on': 1, after: 'Glue' },
      ]),
      job('two', [{ operation: 'Turn', 'hands-on': 3 }]),
    ]);
    const begins = plan.schedule.placed.map(({ start }) => start.hour);
    expect(begins).toEqual([8, 13, 9]);
    expect(told(plan)).toEqual(['one Mon 30 Nov 2026', 'two Mon 30 Nov 2026']);
  });

  it('move when one of them takes longer, and those before it stay', () => {
    const { schedule } = planned([job('one', TABLE, { due: MONDAY }), job('two')]);
    const [mill] = schedule.placed.filter((one) => one.job === 0);
    const after = delayed(schedule, mill?.operation.id ?? '', 16, 0);
    expect(faultsOf(after)).toEqual([]);
    const ends = (of: Schedule) => of.jobs.map(({ end }) => end.day * 24 + end.hour);
    const moved = ends(after).map((end, i) => end - (ends(schedule)[i] ?? 0));
    expect(moved.every((hours) => hours > 0)).toBe(true);
    const [, last] = planned([job('one', TABLE, { due: MONDAY }), job('two')]).jobs;
    expect(last?.job).toBe(1);
    const late = schedule.placed.filter((one) => one.job === 1).at(-1);
    const second = delayed(schedule, late?.operation.id ?? '', 8, 1);
    expect(ends(second)[0]).toBe(ends(schedule)[0]);
    expect(ends(second)[1]).toBeGreaterThan(ends(schedule)[1] ?? 0);
  });

  it('say where the shops differ, what has nothing to plan, and what begins later', () => {
    const plan = planned([
      job('one'),
      job('two', TABLE, { named: { hours_a_day: 8, start_day: MONDAY + 7 } }),
      job('bare', []),
      job('round', [
        { operation: 'A', 'hands-on': 1, after: 'B' },
        { operation: 'B', 'hands-on': 1, after: 'A' },
      ]),
    ]);
    expect(plan.jobs.map(({ name }) => name)).toEqual(['one', 'two']);
    expect(plan.jobs[1]?.begins).toBe(MONDAY + 7);
    expect(plan.notes).toEqual([
      'The hours of the shop differ: all is planned with those of one, not with those of two.',
      'two begins on Mon 7 Dec 2026 at the earliest, as its workbook says.',
    ]);
    expect(
      plan.troubles.some(({ job: of, says }) => of === 3 && says.includes('wait for each')),
    ).toBe(true);
    expect(planJobs([job('bare', [])], MONDAY)).toMatchObject({
      ok: false,
      says: 'None of these jobs has operations to plan.',
    });
  });

  it('give no hands two things at once and keep what comes before what, whatever the jobs are', () => {
    const quarter = (most: number) => fc.integer({ min: 0, max: most }).map((n) => n / 4);
    const row = fc.record({
      hands: quarter(40),
      waiting: quarter(80),
      after: fc.array(fc.nat(), { maxLength: 2 }),
      who: fc.constantFrom('', 'the maker', 'the helper'),
      machine: fc.constantFrom('', 'clamps', 'planer'),
    });
    const rowsOf = fc.array(row, { minLength: 1, maxLength: 5 }).map((rows) =>
      rows.map(
        ({ hands, waiting, after, who, machine }, i): JobRow => ({
          operation: `O${i}`,
          'hands-on': hands,
          waiting,
          ...(i === 0 || after.length === 0
            ? {}
            : { after: [...new Set(after.map((one) => `O${one % i}`))].join(', ') }),
          ...(who === '' ? {} : { who }),
          ...(machine === '' ? {} : { machine }),
        }),
      ),
    );
    const jobs = fc.array(
      fc.record({ rows: rowsOf, due: fc.option(fc.nat({ max: 30 })), isBegun: fc.boolean() }),
      { minLength: 2, maxLength: 4 },
    );
    fc.assert(
      fc.property(jobs, (drawn) => {
        const plan = planned(
          drawn.map(({ rows, due, isBegun }, i) =>
            job(`J${i}`, rows, { isBegun, ...(due === null ? {} : { due: MONDAY + due }) }),
          ),
        );
        expect(plan.troubles).toEqual([]);
        expect(plan.jobs.length).toBe(drawn.length);
        expect(faultsOf(plan.schedule)).toEqual([]);
        for (const [i, { promise }] of plan.jobs.entries()) {
          const ends = plan.schedule.placed
            .filter((one) => one.job === i)
            .map(({ seconds }) => seconds.end);
          expect((promise + 1) * DAY).toBeGreaterThanOrEqual(Math.max(...ends));
        }
      }),
      { seed: 20, numRuns: 60 },
    );
  });
});
