import { describe, expect, it } from 'vitest';
import { type Asker, HereAsker, isStopped, numberOf, outcomes } from './ask.ts';
import { aimsOf, best, frontOf } from './best.ts';
import { axisOf } from './inputs.ts';
import { setsOf } from './table.ts';
import { shelf } from './testing/shelf.ts';

async function bestOver(over: readonly (readonly [string, string])[], aims: string) {
  const book = shelf();
  const asker = new HereAsker(book.document());
  const axes = over.map(([name, text]) => axisOf(book, name, text));
  const asked = { axes, aims: aimsOf(book, aims) };
  const found = await best(book, asker, asked);
  return { book, asker, axes, asked, found };
}

/** Every set by brute force, with what it comes to and whether it keeps every check. */
async function all({ book, asker, axes, asked }: Awaited<ReturnType<typeof bestOver>>) {
  const rows = await outcomes(book, asker as Asker, {
    inputs: axes.map(({ cell }) => cell),
    results: asked.aims.map(({ cell }) => cell),
    sets: setsOf(axes),
  });
  return rows.flatMap((row) =>
    row === undefined || isStopped(row)
      ? []
      : [{ set: row.set, comes: row.values.map((one) => numberOf(one) ?? 0) }],
  );
}

describe('the best', () => {
  it('is the one that trying each by itself finds, and says that all were tried', async () => {
    const run = await bestOver(
      [
        ['long', '60..120/3'],
        ['deep', '8, 10, 12, 16'],
        ['wood', 'oak, ash, pine'],
      ],
      'most area',
    );
    const each = await all(run);
    const most = Math.max(...each.map(({ comes: [area = 0] }) => area));
    expect(run.found.best?.comes).toEqual([most]);
    expect(run.found).toMatchObject({ whole: true, tried: 252, of: 252, kept: each.length });
    expect(each.length).toBeLessThan(252);
  });

  it('trades two off: no one on the front is beaten, and each other is', async () => {
    const run = await bestOver(
      [
        ['long', '24..96/6'],
        ['deep', '8..16/1'],
        ['wood', 'oak, ash, pine'],
      ],
      'smooth, most area',
    );
    const each = await all(run);
    const beats = (one: readonly number[], other: readonly number[]): boolean =>
      (one[0] ?? 0) <= (other[0] ?? 0) &&
      (one[1] ?? 0) >= (other[1] ?? 0) &&
      ((one[0] ?? 0) < (other[0] ?? 0) || (one[1] ?? 0) > (other[1] ?? 0));
    const front = run.found.front.map(({ comes }) => comes);
    for (const one of front) expect(each.some(({ comes }) => beats(comes, one))).toBe(false);
    const ends = new Set(front.map(String));
    for (const { comes } of each) {
      if (!ends.has(String(comes)))
        expect(front.some((one) => beats(one, comes) || String(one) === String(comes))).toBe(true);
    }
    expect(front.length).toBeGreaterThan(3);
  });

  it('is searched for where there are too many, comes to what trying all would, and says that it is a search', async () => {
    const { found } = await bestOver(
      [
        ['long', '12..120/0.125'],
        ['deep', '6..16/0.125'],
        ['wood', 'oak, ash, pine'],
      ],
      'bump, smooth',
    );
    expect(found.whole).toBe(false);
    expect(found.of).toBe(865 * 81 * 3);
    expect(found.tried).toBeLessThan(25_000);
    // 60 in is where the first aim is 0; pine at its least depth is the cheapest of those.
    expect(found.best?.comes[0]).toBe(0);
    expect(found.best?.set).toEqual([60, 6, 'pine']);
  });

  it('is none where no set keeps every check', async () => {
    const { found } = await bestOver([['long', '100..120/5']], 'price');
    expect(found).toMatchObject({ best: undefined, front: [], kept: 0, tried: 5 });
  });

  it.each([
    ['', /Name one result/],
    ['price, area, sag', /Name one result/],
    ['prise', /price/],
  ])('refuses the aims "%s" with a sentence', (text, says) => {
    expect(() => aimsOf(shelf(), text)).toThrow(says);
  });

  it('a front of nothing is empty', () => {
    expect(frontOf([], [])).toEqual([]);
  });
});
