import { describe, expect, it } from 'vitest';
import type { LengthsJob } from './lengths-types.ts';
import { planLengths } from './plan-lengths.ts';
import { faultsOf } from './testdata/verify.ts';

/**
 * Against an integer program that knows nothing of ours: every way to fill every board, listed by
 * plain recursion, solved by HiGHS (the library `highs`, MIT).
 */

interface Result {
  readonly Status: string;
  readonly ObjectiveValue: number;
}
type Loader = () => Promise<{ solve(text: string, options: Record<string, number>): Result }>;

/** Numbers from 0 to 1, the same each time. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
}

function jobOf(seed: number): LengthsJob {
  const random = numbers(seed * 7919 + 1);
  const parts = Array.from({ length: 5 + Math.floor(random() * 3) }, (_, i) => ({
    key: `p${i}`,
    length: 12 + Math.round(random() * 40 * 16) / 16,
    count: 1 + Math.floor(random() * 6),
  }));
  const stock = [72, 96, 120].map((length, i) => {
    const price = Math.round(length * (0.08 + random() * 0.03) * 100) / 100;
    return seed % 3 === 0 && i === 1 ? { length, price, supply: 2 } : { length, price };
  });
  const rack = seed % 2 === 0 ? [] : [{ key: 'r', length: 30 + Math.round(random() * 30) }];
  return { parts, stock, rack, kerf: 0.125, endTrim: 0.5 };
}

function programOf({ parts, stock, rack = [], kerf = 0, endTrim = 0 }: LengthsJob): string {
  const kinds = [
    ...stock.map(({ length, price, supply }) => ({ room: length - 2 * endTrim, price, supply })),
    ...rack.map(({ length }) => ({ room: length, price: 0, supply: 1 })),
  ];
  const ways: { kind: number; counts: number[] }[] = [];
  kinds.forEach(({ room }, kind) => {
    const counts = parts.map(() => 0);
    const fill = (i: number, left: number): void => {
      const part = parts[i];
      if (part === undefined) {
        if (counts.some((count) => count > 0)) ways.push({ kind, counts: [...counts] });
        return;
      }
      for (let n = 0; n <= part.count && n * (part.length + kerf) <= left + 1e-9; n += 1) {
        counts[i] = n;
        fill(i + 1, left - n * (part.length + kerf));
      }
      counts[i] = 0;
    };
    fill(0, room + kerf);
  });
  const sum = (factor: (way: { kind: number; counts: number[] }) => number) =>
    ways.flatMap((way, i) => (factor(way) === 0 ? [] : [`+ ${factor(way)} x${i}`])).join('\n');
  return [
    `Minimize\n cost: ${sum(({ kind }) => kinds[kind]?.price ?? 0)}\nSubject To`,
    ...parts.map(({ count }, i) => ` d${i}: ${sum((way) => way.counts[i] ?? 0)} >= ${count}`),
    ...kinds.flatMap(({ supply }, kind) =>
      supply === undefined
        ? []
        : [` s${kind}: ${sum((way) => (way.kind === kind ? 1 : 0))} <= ${supply}`],
    ),
    `General\n${ways.map((_, i) => ` x${i}`).join('\n')}\nEnd\n`,
  ].join('\n');
}

describe('against an integer program over every filling', () => {
  it.each(Array.from({ length: 16 }, (_, seed) => seed))(
    'job %i',
    async (seed) => {
      const job = jobOf(seed);
      const { default: load } = (await import('highs')) as unknown as { readonly default: Loader };
      const result = (await load()).solve(programOf(job), { mip_rel_gap: 0, mip_abs_gap: 1e-6 });
      expect(result.Status).toBe('Optimal');
      for (const effort of ['cell', 'proof'] as const) {
        const plan = planLengths({ ...job, effort });
        expect(faultsOf(job, plan)).toEqual([]);
        expect(plan.bound).toBeLessThanOrEqual(result.ObjectiveValue + 1e-6);
        expect(plan.cost).toBeGreaterThanOrEqual(result.ObjectiveValue - 1e-6);
        if (effort === 'proof' || plan.proven)
          expect(plan.cost).toBeCloseTo(result.ObjectiveValue, 6);
      }
    },
    30_000,
  );
});
