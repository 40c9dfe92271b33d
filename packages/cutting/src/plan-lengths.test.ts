import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CuttingFault } from './fault.ts';
import type { LengthsJob } from './lengths-types.ts';
import { planLengths } from './plan-lengths.ts';
import { provePlan } from './proof.ts';
import { demandOf, INSTANCES, type Instance } from './testdata/instances.ts';
import { faultsOf, leastCost } from './testdata/verify.ts';

const jobOf = (instance: Instance): LengthsJob => ({
  parts: demandOf(instance).map(({ size, count }) => ({ key: `${size}`, length: size, count })),
  stock: [{ length: instance.capacity, price: 1 }],
  effort: 'proof',
});

describe('public instances, against their proven optima', () => {
  // Source of every optimum: testdata/instances.json.
  const search = INSTANCES.filter(({ name }) => !name.startsWith('Hard28'));

  it.each(search)('$name: $optimum bins, proven', (instance) => {
    const job = jobOf(instance);
    const plan = planLengths(job);
    expect(faultsOf(job, plan)).toEqual([]);
    expect(plan).toMatchObject({ cost: instance.optimum, bound: instance.optimum, proven: true });
  });

  it.each(INSTANCES)('$name in a cell: valid, bound and cost around $optimum', (instance) => {
    const job: LengthsJob = { ...jobOf(instance), effort: 'cell' };
    const plan = planLengths(job);
    expect(faultsOf(job, plan)).toEqual([]);
    expect(plan.bound).toBeLessThanOrEqual(instance.optimum);
    expect(plan.cost).toBeGreaterThanOrEqual(instance.optimum);
    expect(plan.cost).toBeLessThanOrEqual(instance.firstFitDecreasing);
  });

  it('Hard28: the integer program proves what the search leaves open', async () => {
    const instance = INSTANCES.find(({ name }) => name.startsWith('Hard28')) as Instance;
    const job = jobOf(instance);
    const plan = await provePlan(job);
    expect(faultsOf(job, plan)).toEqual([]);
    expect(plan).toMatchObject({ cost: 67, bound: 67, proven: true });
  });
});

const whole = (min: number, max: number) => fc.integer({ min, max });
const small = fc
  .record({
    lengths: fc.array(fc.record({ length: whole(3, 40), count: whole(1, 2) }), {
      minLength: 1,
      maxLength: 4,
    }),
    stock: fc.array(
      fc.record({
        length: whole(42, 70),
        price: whole(1, 30),
        supply: fc.option(whole(0, 3), { nil: undefined }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    sure: fc.record({ length: whole(44, 80), price: whole(5, 40) }),
    rack: fc.array(whole(3, 50), { maxLength: 2 }),
    kerf: whole(0, 3),
    endTrim: whole(0, 1),
  })
  .map(
    ({ lengths, stock, sure, rack, kerf, endTrim }): LengthsJob => ({
      parts: lengths.map((part, i) => ({ key: `p${i}`, ...part })),
      stock: [
        ...stock.map(({ length, price, supply }) =>
          supply === undefined ? { length, price } : { length, price, supply },
        ),
        sure,
      ],
      rack: rack.map((length, i) => ({ key: `r${i}`, length })),
      kerf,
      endTrim,
    }),
  );

describe('against trying everything', () => {
  it('costs the least, and never less than its bound', () => {
    fc.assert(
      fc.property(small, (job) => {
        const plan = planLengths({ ...job, effort: 'proof' });
        expect(faultsOf(job, plan)).toEqual([]);
        const least = leastCost(job);
        expect(plan.bound).toBeLessThanOrEqual(least);
        expect(plan.cost).toBe(least);
        expect(plan.proven).toBe(true);
      }),
      { numRuns: 400 },
    );
  });

  it('holds in a cell too: valid, the bound below the least cost', () => {
    fc.assert(
      fc.property(small, (job) => {
        const plan = planLengths(job);
        expect(faultsOf(job, plan)).toEqual([]);
        const least = leastCost(job);
        expect(plan.bound).toBeLessThanOrEqual(least);
        if (plan.proven) expect(plan.cost).toBe(least);
      }),
      { numRuns: 400 },
    );
  });

  it('is proven by the integer program alike', async () => {
    await fc.assert(
      fc.asyncProperty(small, async (job) => {
        const plan = await provePlan(job);
        expect(faultsOf(job, plan)).toEqual([]);
        expect(plan.cost).toBe(leastCost(job));
      }),
      { numRuns: 50 },
    );
  });
});

/** Jobs in which boards may run out. */
const tight = fc
  .record({
    lengths: fc.array(fc.record({ length: whole(8, 30), count: whole(1, 2) }), {
      minLength: 2,
      maxLength: 4,
    }),
    stock: fc.array(
      fc.record({ length: whole(30, 60), price: whole(0, 30), supply: whole(1, 2) }),
      { minLength: 1, maxLength: 3 },
    ),
    kerf: whole(0, 2),
  })
  .map(
    ({ lengths, stock, kerf }): LengthsJob => ({
      parts: lengths.map((part, i) => ({ key: `p${i}`, ...part })),
      stock,
      kerf,
      effort: 'proof',
    }),
  );

describe('boards that run out', () => {
  it('are planned wherever they can give every part, and refused only where they cannot', () => {
    let [planned, refused] = [0, 0];
    fc.assert(
      fc.property(tight, (job) => {
        const least = leastCost(job);
        if (least === Number.POSITIVE_INFINITY) {
          refused += 1;
          expect(() => planLengths(job)).toThrow(
            expect.objectContaining({ code: expect.stringMatching(/supply-short|too-long/) }),
          );
          return;
        }
        planned += 1;
        const plan = planLengths(job);
        expect(faultsOf(job, plan)).toEqual([]);
        expect(plan).toMatchObject({ cost: least, bound: least, proven: true });
      }),
      { numRuns: 400 },
    );
    expect(Math.min(planned, refused)).toBeGreaterThan(20);
  });
});

describe('money', () => {
  it('is added up exactly for prices with more places than are weighed', () => {
    const job: LengthsJob = {
      parts: [{ key: 'rail', length: 40, count: 5 }],
      stock: [{ length: 96, price: 8 + 1 / 3 }],
    };
    const plan = planLengths(job);
    expect(plan.cost).toBeCloseTo(25, 9);
    expect(plan.bound).toBeLessThanOrEqual(25);
    expect(plan.gap).toBeLessThan(0.001);
    expect(plan.proven).toBe(true);
  });
});

describe('the way to a cell', () => {
  it('loads no integer program: only the proof names it', () => {
    const folder = import.meta.dirname;
    const naming = readdirSync(folder)
      .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
      .filter((name) =>
        /from 'highs'|import\('highs'\)/.test(readFileSync(join(folder, name), 'utf8')),
      );
    expect(naming).toEqual(['proof.ts']);
    expect(readFileSync(join(folder, 'index.ts'), 'utf8')).not.toMatch(/proof\.ts/);
  });
});

describe('what must not matter', () => {
  it('the order of parts, stock and rack', () => {
    fc.assert(
      fc.property(small, whole(1, 5), (job, turn) => {
        const turned = <T>(list: readonly T[] = []): T[] => [
          ...list.slice(turn % (list.length || 1)),
          ...list.slice(0, turn % (list.length || 1)),
        ];
        const other = planLengths({
          ...job,
          parts: turned(job.parts).reverse(),
          stock: turned(job.stock),
          rack: turned(job.rack),
        });
        const plan = planLengths(job);
        expect(other.cost).toBe(plan.cost);
        expect(other.bound).toBe(plan.bound);
      }),
    );
  });

  it('the unit of lengths', () => {
    fc.assert(
      fc.property(small, (job) => {
        const by = 25.4;
        const scaled = <T extends { readonly length: number }>(list: readonly T[] = []): T[] =>
          list.map((one) => ({ ...one, length: one.length * by }));
        const other = planLengths({
          ...job,
          parts: scaled(job.parts),
          stock: scaled(job.stock),
          rack: scaled(job.rack),
          kerf: (job.kerf ?? 0) * by,
          endTrim: (job.endTrim ?? 0) * by,
        });
        expect(other.cost).toBe(planLengths(job).cost);
      }),
    );
  });

  it('a kerf, where every length has it added already', () => {
    fc.assert(
      fc.property(small, (job) => {
        const kerf = job.kerf ?? 0;
        const longer = <T extends { readonly length: number }>(list: readonly T[] = []): T[] =>
          list.map((one) => ({ ...one, length: one.length + kerf }));
        const other = planLengths({
          ...job,
          parts: longer(job.parts),
          stock: longer(job.stock),
          rack: longer(job.rack),
          kerf: 0,
        });
        expect(other.cost).toBe(planLengths(job).cost);
      }),
    );
  });
});

describe('kerf and trim', () => {
  const one = (length: number, more: Partial<LengthsJob> = {}): LengthsJob => ({
    parts: [{ key: 'slat', length: 10, count: 4 }],
    stock: [{ length, price: 1 }],
    kerf: 0.125,
    ...more,
  });

  // common practice, no source
  it.each([
    [40.375, 1, 0, 3, 0.375],
    [40.4, 1, 0, 4, 0.4],
    [40.5, 1, 0, 4, 0.5],
    [41, 1, 0.5, 4, 0.5],
  ])('a board of %d: %d bought, offcut %d, %d cuts, sawdust %d', (length, bought, ...rest) => {
    const [offcut, cuts, sawdust] = rest;
    const plan = planLengths(one(length));
    expect(plan.bought).toBe(bought);
    expect(plan.boards[0]?.offcut).toBeCloseTo(offcut, 9);
    expect(plan.boards[0]?.cuts).toBe(cuts);
    expect(plan.boards[0]?.sawdust).toBeCloseTo(sawdust, 9);
  });

  it('takes two boards where a hair is missing', () => {
    expect(planLengths(one(40.3749)).bought).toBe(2);
  });

  it('trims both ends once', () => {
    expect(planLengths(one(41.375, { endTrim: 0.5 })).bought).toBe(1);
    expect(planLengths(one(41.37, { endTrim: 0.5 })).bought).toBe(2);
    expect(planLengths(one(41.375, { endTrim: 0.5 })).boards[0]?.parts[0]?.start).toBe(0.5);
  });

  it.each([3, 6, 7, 9, 11, 13])('gets %i equal parts out of a board they divide', (count) => {
    const parts = [{ key: 'piece', length: 100 / count, count }];
    const job = { parts, stock: [{ length: 100, price: 1 }] };
    expect(planLengths(job).bought).toBe(1);
  });

  it('takes from the rack what the rack gives, and leaves the offcut long', () => {
    const job: LengthsJob = {
      parts: [
        { key: 'rail', length: 40, count: 2 },
        { key: 'stub', length: 10, count: 1 },
      ],
      stock: [{ length: 96, price: 8 }],
      rack: [{ key: 'left over', length: 12 }],
    };
    const plan = planLengths(job);
    expect(faultsOf(job, plan)).toEqual([]);
    expect(plan).toMatchObject({ cost: 8, proven: true, totals: { offcuts: 16, parts: 80 } });
    expect(plan.boards[1]).toMatchObject({ from: 'rack', price: 0, parts: [{ key: 'stub' }] });
  });

  it('plans nothing for nothing', () => {
    const plan = planLengths({ parts: [], stock: [{ length: 96, price: 8 }] });
    expect(plan).toMatchObject({ boards: [], cost: 0, bound: 0, proven: true, bought: 0 });
    expect(plan.totals.waste).toBe(0);
  });
});

describe('refusals', () => {
  const good: LengthsJob = {
    parts: [{ key: 'leg', length: 29, count: 4 }],
    stock: [{ length: 96, price: 8 }],
  };
  const part = (length: number, count = 1) => ({ parts: [{ key: 'leg', length, count }] });

  it.each<[string, Partial<LengthsJob>, string, RegExp]>([
    ['a part too long', part(100), 'too-long', /"leg" is 100 long; the longest board gives 96\./],
    ['one too long once trimmed', { ...part(95), endTrim: 1 }, 'too-long', /94 after both ends/],
    ['a length of zero', part(0), 'bad-size', /"leg" is 0; it takes a number above 0/],
    ['a negative length', part(-3), 'bad-size', /is -3/],
    ['a length that is no number', part(Number.NaN), 'bad-size', /not a usable number/],
    ['half a part', part(3, 1.5), 'bad-count', /whole number/],
    ['a negative kerf', { kerf: -1 }, 'bad-kerf', /kerf is -1/],
    ['a trim that eats the board', { endTrim: 48 }, 'bad-trim', /leaves nothing/],
    ['a negative price', { stock: [{ length: 96, price: -1 }] }, 'bad-price', /price/],
    ['no stock', { stock: [] }, 'no-stock', /nothing to cut from/],
    ['too many parts', part(1, 10_001), 'too-many', /10001 parts; up to 10000/],
    ['too little', { stock: [{ length: 96, price: 8, supply: 1 }] }, 'supply-short', /shorter/],
  ])('%s', (_, wrong, code, says) => {
    const ask = () => planLengths({ ...good, ...wrong });
    expect(ask).toThrow(CuttingFault);
    expect(ask).toThrow(says);
    expect(ask).toThrow(expect.objectContaining({ code }));
  });
});

describe('long lists', () => {
  it('plans 10,000 parts of 10,000 lengths with a bound that holds', () => {
    const parts = Array.from({ length: 10_000 }, (_, i) => ({
      key: `${i}`,
      length: 5 + ((i * 7919) % 10_007) / 150,
      count: 1,
    }));
    const job: LengthsJob = { parts, stock: [{ length: 96, price: 8 }], kerf: 0.125 };
    const plan = planLengths(job);
    expect(faultsOf(job, plan)).toEqual([]);
    expect(plan.gap / plan.cost).toBeLessThan(0.02);
  });

  it('gives the same object for the same question', () => {
    const ask = () => planLengths({ parts: [], stock: [{ length: 50, price: 1 }] });
    expect(ask()).toBe(ask());
    expect(Object.isFrozen(ask().totals)).toBe(true);
  });
});
