import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CuttingFault } from './fault.ts';
import { type LengthRequest, planLengths } from './lengths.ts';
import { leastCost, troubleWith } from './testing/verify.ts';

interface Instance {
  readonly name: string;
  readonly capacity: number;
  readonly items: readonly number[];
  readonly optimum: number;
  readonly firstFitDecreasing: number;
}

const { instances } = JSON.parse(
  readFileSync(new URL('./testing/instances.json', import.meta.url), 'utf8'),
) as { readonly instances: readonly Instance[] };

/** These take many seconds; the benchmark plans them. */
const SLOW = new Set(['Waescher_TEST0005', 'Hard28_BPP13']);

const packing = ({ capacity, items }: Instance): LengthRequest => ({
  parts: items.map((length) => ({ length, count: 1 })),
  stock: [{ length: capacity, price: 1 }],
});

describe('public cutting-stock instances', () => {
  // BPPLIB (Delorme, Iori, Martello, Optimization Letters 12(2), 2018); optima published or proved by
  // an arc-flow integer program, named in the file.
  it.each(instances.filter(({ name }) => !SLOW.has(name)))(
    '$name: $optimum boards, proven',
    (one) => {
      const plan = planLengths(packing(one));
      expect(troubleWith(plan, packing(one))).toEqual([]);
      expect([plan.cost, plan.proven, plan.bound]).toEqual([one.optimum, true, one.optimum]);
    },
  );

  it.each([
    // Chvatal, Linear Programming, 1983, chapter 13: 453 rolls; value from memory.
    [
      'raws of 100',
      100,
      [
        [45, 97],
        [36, 610],
        [31, 395],
        [14, 211],
      ],
      453,
    ],
    // The usual textbook example of paper rolls: 73; value from memory.
    [
      'paper rolls of 5600',
      5600,
      [
        [1380, 22],
        [1520, 25],
        [1560, 12],
        [1710, 14],
        [1820, 18],
        [1880, 18],
        [1930, 20],
        [2000, 10],
        [2050, 12],
        [2100, 14],
        [2140, 16],
        [2150, 18],
        [2200, 20],
      ],
      73,
    ],
  ] as const)('%s', (_name, length, parts, optimum) => {
    const request = {
      parts: parts.map(([part, count]) => ({ length: part, count })),
      stock: [{ length, price: 1 }],
    };
    const plan = planLengths(request);
    expect(troubleWith(plan, request)).toEqual([]);
    expect(plan).toMatchObject({ cost: optimum, bound: optimum, proven: true });
  });
});

const stock = fc.record({
  length: fc.integer({ min: 20, max: 60 }),
  price: fc.integer({ min: 0, max: 30 }),
});
const request: fc.Arbitrary<LengthRequest> = fc.record({
  parts: fc.array(
    fc.record({ length: fc.integer({ min: 3, max: 20 }), count: fc.integer({ min: 0, max: 3 }) }),
    { minLength: 1, maxLength: 3 },
  ),
  stock: fc
    .tuple(
      stock,
      fc.array(
        fc.record({
          length: fc.integer({ min: 20, max: 60 }),
          price: fc.integer({ min: 0, max: 30 }),
          supply: fc.integer({ min: 0, max: 2 }),
        }),
        { maxLength: 2 },
      ),
    )
    .map(([first, more]) => [first, ...more]),
  kerf: fc.constantFrom(0, 0.125, 1),
  endTrim: fc.constantFrom(0, 0),
});

describe('any plan', () => {
  it('can be sawn, costs no less than its bound, and the least where it says so', () => {
    fc.assert(
      fc.property(request, fc.constantFrom('cell' as const, 'bench' as const), (asked, effort) => {
        const plan = planLengths({ ...asked, effort });
        expect(troubleWith(plan, asked)).toEqual([]);
        const least = leastCost(asked);
        expect(plan.bound).toBeLessThanOrEqual(least + 1e-6);
        expect(plan.cost).toBeGreaterThanOrEqual(least - 1e-6);
        if (plan.proven) expect(plan.cost).toBeCloseTo(least, 6);
        if (effort === 'bench') expect(plan.cost).toBeCloseTo(least, 6);
      }),
      { numRuns: 300 },
    );
  });

  it('is the same for the same request, and costs the same in whatever order parts are told', () => {
    fc.assert(
      fc.property(request, (asked) => {
        const plan = planLengths(asked);
        expect(planLengths(asked)).toEqual(plan);
        expect(planLengths({ ...asked, parts: [...asked.parts].reverse() }).cost).toBeCloseTo(
          plan.cost,
          9,
        );
      }),
      { numRuns: 60 },
    );
  });

  it('does not care for the unit', () => {
    fc.assert(
      fc.property(request, (asked) => {
        const mm = {
          ...asked,
          parts: asked.parts.map((one) => ({ ...one, length: one.length * 25.4 })),
          stock: asked.stock.map((one) => ({ ...one, length: one.length * 25.4 })),
          kerf: (asked.kerf ?? 0) * 25.4,
        };
        expect(planLengths(mm).cost).toBeCloseTo(planLengths(asked).cost, 9);
      }),
      { numRuns: 60 },
    );
  });
});

describe('saw cuts', () => {
  it('lie between pieces, and behind the last only where something remains', () => {
    const exact = planLengths({
      parts: [{ length: 10, count: 3 }],
      stock: [{ length: 30.25, price: 5 }],
      kerf: 0.125,
    });
    expect(exact.boards).toHaveLength(1);
    expect(exact.boards[0]?.pieces.map(({ at }) => at)).toEqual([0, 10.125, 20.25]);
    expect(exact.boards[0]?.offcut).toBe(0);
    const shorter = planLengths({
      parts: [{ length: 10, count: 3 }],
      stock: [{ length: 30.2, price: 5 }],
      kerf: 0.125,
    });
    expect(shorter.boards).toHaveLength(2);
    expect(shorter.boards.map(({ offcut }) => offcut)).toEqual(
      [9.95, 20.075].map((n) => expect.closeTo(n, 6)),
    );
  });

  it('come after the trim of the end', () => {
    const plan = planLengths({
      parts: [{ length: 10, count: 2 }],
      stock: [{ length: 21, price: 5 }],
      kerf: 0.25,
      endTrim: 0.5,
    });
    expect(plan.boards[0]?.pieces.map(({ at }) => at)).toEqual([0.5, 10.75]);
    expect(plan.boards[0]?.offcut).toBeCloseTo(0, 9);
  });
});

describe('boards at hand', () => {
  it('that cost nothing are used first', () => {
    const plan = planLengths({
      parts: [{ length: 30, count: 3 }],
      stock: [
        { length: 96, price: 9 },
        { length: 31, price: 0, supply: 2 },
        { length: 48, price: 6 },
      ],
      kerf: 0.125,
    });
    expect(plan).toMatchObject({ cost: 6, proven: true, bought: [0, 2, 1] });
  });

  it('that do not suffice are said to', () => {
    const few = { parts: [{ length: 30, count: 3 }], stock: [{ length: 31, price: 1, supply: 2 }] };
    expect(() => planLengths(few)).toThrow('There are too few boards for all pieces.');
  });
});

describe('what cannot be planned', () => {
  it.each([
    [
      { parts: [{ length: 100, count: 1, name: 'Rail' }], stock: [{ length: 96, price: 1 }] },
      'Rail is 100 long; the longest board gives 96.',
    ],
    [{ parts: [{ length: 0, count: 1 }], stock: [{ length: 96, price: 1 }] }, 'A part is 0 long'],
    [{ parts: [{ length: 1, count: 1.5 }], stock: [{ length: 96, price: 1 }] }, 'wanted 1.5 times'],
    [{ parts: [{ length: 1, count: 1 }], stock: [] }, 'There is no stock'],
    [{ parts: [{ length: 1, count: 1 }], stock: [{ length: -1, price: 1 }] }, 'A board is -1 long'],
    [
      { parts: [{ length: 1, count: 1 }], stock: [{ length: 9, price: Number.NaN }] },
      'A board costs NaN',
    ],
    [
      { parts: [{ length: 1, count: 1 }], stock: [{ length: 9, price: 1 }], kerf: -1 },
      'kerf is -1',
    ],
    [{ parts: [{ length: 1, count: 10_001 }], stock: [{ length: 9, price: 1 }] }, '10001 pieces'],
  ] as const)('%#', (asked, says) => {
    expect(() => planLengths(asked)).toThrow(CuttingFault);
    expect(() => planLengths(asked)).toThrow(says);
  });

  it('is nothing where nothing is wanted', () => {
    const plan = planLengths({ parts: [], stock: [{ length: 96, price: 1 }] });
    expect(plan).toMatchObject({
      boards: [],
      cost: 0,
      bound: 0,
      proven: true,
      bought: [0],
      waste: 0,
    });
  });

  it('is planned by length where there are thousands of lengths, with an honest bound', () => {
    const asked = {
      parts: Array.from({ length: 10_000 }, (_, i) => ({
        length: 5 + ((i * 7919) % 4001) / 100,
        count: 1,
      })),
      stock: [
        { length: 96, price: 9 },
        { length: 144, price: 13 },
      ],
      kerf: 0.125,
    };
    const plan = planLengths(asked);
    expect(troubleWith(plan, asked)).toEqual([]);
    expect(plan.bound).toBeGreaterThan(0);
    expect(plan.bound).toBeLessThanOrEqual(plan.cost);
    expect(plan.cost / plan.bound).toBeLessThan(1.1);
  });
});
