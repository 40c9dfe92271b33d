import { describe, expect, it } from 'vitest';
import { HereAsker } from './ask.ts';
import { triangular } from './random.ts';
import { correlation, percentile, ranksOf, spread, uncertainOf } from './spread.ts';
import { shelf } from './testing/shelf.ts';

async function spreadOver(
  over: readonly (readonly [string, string])[],
  show: readonly string[],
  draws?: number,
  seed?: number,
) {
  const book = shelf();
  const asker = new HereAsker(book.document());
  const inputs = over.map(([name, text]) => uncertainOf(book, name, text));
  const results = show.map((name) => {
    const cell = book.named(name);
    if (cell === undefined) throw new Error(name);
    return cell;
  });
  const run = await spread(book, asker, {
    inputs,
    results,
    ...(draws === undefined ? {} : { draws }),
    ...(seed === undefined ? {} : { seed }),
  });
  asker.destroy();
  return run;
}

/** Another generator than the one of the code: Park and Miller, Communications of the ACM 31 (1988), minimal standard. */
function minimalStandard(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/** A triangular number another way than by its inverse: by throwing away what lies over the triangle. */
function thrown(next: () => number, low: number, likely: number, high: number): number {
  for (;;) {
    const x = low + (high - low) * next();
    const tall = x < likely ? (x - low) / (likely - low) : (high - x) / (high - likely);
    if (next() <= tall) return x;
  }
}

describe('a triangular number', () => {
  it('lies where its distribution function says', () => {
    // F(x) = (x−a)²/((b−a)(c−a)) up to the likely one, 1 − (b−x)²/((b−a)(b−c)) above it: Evans, Hastings, Peacock,
    // Statistical Distributions; from memory.
    const [low, likely, high] = [7, 9, 14];
    for (let chance = 0; chance <= 1; chance += 1 / 64) {
      const x = triangular({ low, likely, high }, chance);
      const f =
        x <= likely
          ? (x - low) ** 2 / ((high - low) * (likely - low))
          : 1 - (high - x) ** 2 / ((high - low) * (high - likely));
      expect(f).toBeCloseTo(chance, 10);
    }
  });

  it('may have its likely one at an end, or no width at all', () => {
    expect(triangular({ low: 0, likely: 0, high: 2 }, 0.75)).toBeCloseTo(1, 12);
    expect(triangular({ low: 0, likely: 2, high: 2 }, 0.25)).toBeCloseTo(1, 12);
    expect(triangular({ low: 3, likely: 3, high: 3 }, 0.4)).toBe(3);
  });
});

describe('a spread', () => {
  it('has the percentiles of an independent simulation', async () => {
    const { results } = await spreadOver(
      [
        ['hours', '4, 6, 12'],
        ['rate', '35, 40, 55'],
      ],
      ['smooth'],
      40_000,
    );
    const next = minimalStandard(20261129);
    const others = Float64Array.from({ length: 40_000 }, () => {
      const hours = thrown(next, 4, 6, 12);
      const rate = thrown(next, 35, 40, 55);
      return ((48 * 10) / 144) * 9 + hours * rate;
    }).toSorted();
    const [{ p10, p50, p90, mean }] = results as [(typeof results)[number]];
    const near = (percent: number): number => percentile(others, percent);
    // Standard errors of these percentiles are about 0.4 to 0.8 $ at 40,000 tries.
    expect(Math.abs(p10 - near(10))).toBeLessThan(3);
    expect(Math.abs(p50 - near(50))).toBeLessThan(3);
    expect(Math.abs(p90 - near(90))).toBeLessThan(4);
    // The mean of a product of independent numbers is that of their means: 22/3 × 130/3 + 30.
    expect(mean).toBeCloseTo((22 / 3) * (130 / 3) + 30, -0.5);
  });

  it('is the same again for the same seed, and another for another', async () => {
    const over = [['hours', '4, 6, 12']] as const;
    const [one, again, other] = [
      await spreadOver(over, ['price'], 500, 5),
      await spreadOver(over, ['price'], 500, 5),
      await spreadOver(over, ['price'], 500, 6),
    ];
    expect(again.results[0]?.mean).toBe(one.results[0]?.mean);
    expect(other.results[0]?.mean).not.toBe(one.results[0]?.mean);
  });

  it('says how likely each check fails, and which input matters', async () => {
    // Sag says stop over 84.3433 in; of a triangle from 60 over 60 to 100 that leaves (100 − 84.3433)²/40².
    const run = await spreadOver(
      [
        ['long', '60, 60, 100'],
        ['hours', '5.9, 6, 6.1'],
      ],
      ['sag', 'price'],
      20_000,
    );
    const edge = Math.cbrt(600_000);
    const sag = run.checks.find(({ name }) => name === 'Sag');
    expect(sag?.share).toBeCloseTo(((100 - edge) / 40) ** 2, 1.7);
    expect(run.stopped / run.draws).toBe(sag?.share);
    expect(run.results[0]?.matters[0]).toMatchObject({ cell: { name: 'long' }, rank: 1 });
    expect(Math.abs(run.results[0]?.matters[1]?.rank ?? 1)).toBeLessThan(0.03);
  });

  it('draws whole numbers where an input takes no others, and counts tries that come to nothing', async () => {
    const run = await spreadOver(
      [
        ['boards', '1, 2, 4'],
        ['long', '90, 99, 110'],
      ],
      ['boards', 'broken'],
      2_000,
    );
    const [boards, broken] = run.results;
    expect([boards?.least, boards?.most]).toEqual([1, 4]);
    expect(Number.isInteger(boards?.p50)).toBe(true);
    expect(broken?.lost).toBeGreaterThan(0);
    expect((broken?.count ?? 0) + (broken?.lost ?? 0)).toBe(2_000);
    expect(broken?.bins.reduce((sum, one) => sum + one, 0)).toBe(broken?.count);
  });

  it.each([
    ['hours', '4, 6', /three numbers/],
    ['hours', '6, 4, 12', /should rise/],
    ['hours', '-4, 6, 12', /hours/],
    ['price', '1, 2, 3', /is calculated/],
    ['wood', 'oak, ash, pine', /three numbers/],
  ])('refuses %s %s with a sentence', (name, text, says) => {
    expect(() => uncertainOf(shelf(), name, text)).toThrow(says);
  });
});

describe('ranks', () => {
  it('share their mean where numbers are alike, and correlate as Spearman says', () => {
    expect([...ranksOf(Float64Array.of(10, 30, 20, 30))]).toEqual([1, 3.5, 2, 3.5]);
    // Without ties: 1 − 6 Σd² / (n(n² − 1)); Spearman, American Journal of Psychology 15 (1904), from memory.
    const [one, other] = [Float64Array.of(1, 2, 3, 4, 5), Float64Array.of(2, 1, 4, 3, 5)];
    expect(correlation(one, other)).toBeCloseTo(1 - (6 * 4) / (5 * 24), 12);
    expect(correlation(one, Float64Array.of(3, 3, 3, 3, 3))).toBe(0);
  });

  it('percentiles lie between two numbers in proportion', () => {
    // R 4.3, quantile(c(1,2,4,8), c(.1,.5,.9), type = 7): 1.3, 3.0, 6.8 (worked out by hand from the definition).
    const sorted = Float64Array.of(1, 2, 4, 8);
    expect([10, 50, 90].map((percent) => percentile(sorted, percent))).toEqual([
      1.3, 3, 6.800000000000001,
    ]);
  });
});
