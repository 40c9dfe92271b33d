import { afterEach, describe, expect, it } from 'vitest';
import { forgetFurther, keepFurther, plansAskedIn } from './further.ts';
import { planLengths } from './plan-lengths.ts';
import { provePlan } from './proof.ts';
import { faultsOf } from './testdata/verify.ts';
import { planted } from './testing/planted.ts';

afterEach(forgetFurther);

const SEEDS = Array.from({ length: 20 }, (_, i) => i + 1);
const BOARDS = [3, 5, 8, 12, 20];
const JOBS = BOARDS.flatMap((boards) =>
  SEEDS.map((seed) => ({ boards, job: planted(seed, boards) })),
);

describe('jobs that were made by filling boards to the last kerf', () => {
  it('are planned with no board too many at once, nine in ten of them, with a bound that holds', () => {
    const optimal = JOBS.filter(({ boards, job }) => {
      const plan = planLengths(job);
      expect(faultsOf(job, plan)).toEqual([]);
      expect(plan.bound).toBeLessThanOrEqual(boards * 10 + 1e-9);
      expect(plan.proven).toBe(plan.bought === boards);
      return plan.bought === boards;
    });
    expect(optimal.length).toBeGreaterThanOrEqual(JOBS.length * 0.9);
  });

  it('are proven in the end, all that were not at once', async () => {
    const open = JOBS.filter(({ job }) => !planLengths(job).proven);
    expect(open.length).toBeGreaterThan(0);
    for (const { boards, job } of open) {
      const plan = await provePlan(job);
      expect(faultsOf(job, plan)).toEqual([]);
      expect(plan).toMatchObject({ proven: true, bought: boards, cost: boards * 10 });
    }
  });
});

describe('a plan that was looked for further', () => {
  const job = JOBS.find((one) => !planLengths(one.job).proven)?.job ?? planted(1, 12);

  it('answers cells from then on, the same whoever looks, and the first one does where nobody does', async () => {
    const [asked] = plansAskedIn(() => planLengths(job));
    expect(asked).toMatchObject({ state: 'open' });
    const before = planLengths(job);
    const further = await provePlan(job);
    expect(await provePlan(job)).toEqual(further);
    expect(planLengths(job)).toEqual(before);
    expect(keepFurther(job, further, before)).toBe(true);
    expect(planLengths(job)).toEqual(further);
    expect(planLengths({ ...job, effort: 'cell' })).toEqual(further);
    expect(plansAskedIn(() => planLengths(job))).toMatchObject([{ state: 'proven' }]);
    forgetFurther();
    expect(planLengths(job)).toEqual(before);
  });

  it('tells that no more is done where it is not proven all the same', () => {
    const before = planLengths(job);
    expect(keepFurther(job, before, before)).toBe(false);
    expect(plansAskedIn(() => planLengths(job))).toMatchObject([{ state: 'ended' }]);
  });

  it('is told of every plan that is asked for, each once, also within another listening', () => {
    const other = planted(2, 3);
    let inner = 0;
    const all = plansAskedIn(() => {
      planLengths(job);
      planLengths(job);
      inner = plansAskedIn(() => planLengths(other)).length;
    });
    expect([inner, all.length]).toEqual([1, 2]);
    expect(plansAskedIn(() => undefined)).toEqual([]);
  });
});
