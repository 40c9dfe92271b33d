import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HereAsker } from './ask.ts';
import { StudyFault } from './fault.ts';
import { spanOf } from './inputs.ts';
import { goalOf, seek } from './seek.ts';
import { shelf, template } from './testing/shelf.ts';

async function sought(goal: string, name: string, range = '', keep = false, book = shelf()) {
  const asker = new HereAsker(book.document());
  const asked = { goal: goalOf(book, goal), span: spanOf(book, name, range), keep };
  const found = await seek(book, asker, asked);
  asker.destroy();
  /** What the engine makes of an input that was found. */
  const putIn = (value: number): number => {
    const cell = book.named(name);
    if (cell === undefined) throw new Error(name);
    const { sheet, row, column } = cell.at;
    const applied = book.apply({
      do: 'enter',
      sheet,
      cells: [{ row, column, text: String(value) }],
    });
    if (!applied.ok) throw new Error(applied.says);
    const comes = book.value(asked.goal.cell.at);
    return comes.kind === 'number' ? comes.number : Number.NaN;
  };
  return { ...found, putIn };
}

describe('a seek', () => {
  it('finds the input that gives a result, and the marks of the rule on both sides', async () => {
    // 48 × 10 / 144 × 9 + 240 = 270; 300 needs 96 in.
    const { crossings, putIn } = await sought('smooth 300', 'long');
    expect(crossings).toHaveLength(1);
    const [{ exact, between }] = crossings as [(typeof crossings)[number]];
    expect(exact?.at).toBeCloseTo(96, 9);
    expect(putIn(exact?.at ?? 0)).toBeCloseTo(300, 6);
    expect(between[0].at).toBeLessThanOrEqual(96);
    expect(between[1].at).toBeGreaterThanOrEqual(96);
  });

  it('puts every answer back in, whatever is asked for', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 250, max: 310 }), async (than) => {
        const { crossings, putIn } = await sought(`smooth ${than}`, 'long');
        for (const { exact } of crossings) expect(putIn(exact?.at ?? 0)).toBeCloseTo(than, 5);
        const least = (12 * 10 * 9) / 144 + 240;
        const most = (120 * 10 * 9) / 144 + 240;
        expect(crossings).toHaveLength(than >= least && than <= most ? 1 : 0);
      }),
      { seed: 7, numRuns: 25 },
    );
  });

  it('tells of a result that jumps over what was asked for', async () => {
    // Whole square feet: the price goes up by 9 at a time, and 275 is none of them.
    const { crossings, putIn } = await sought('price 275', 'long');
    expect(crossings).toHaveLength(1);
    const [{ exact, between }] = crossings as [(typeof crossings)[number]];
    expect(exact).toBeUndefined();
    expect(between.map(({ comes }) => comes)).toEqual([267, 276]);
    expect([putIn(between[0].at), putIn(between[1].at)]).toEqual([267, 276]);
  });

  it('finds several where there are several, and says what is reached where there is none', async () => {
    const { crossings } = await sought('bump 144', 'long');
    expect(crossings.map(({ exact }) => exact?.at)).toEqual([48, 72]);
    const none = await sought('bump 9000', 'long');
    expect(none.crossings).toEqual([]);
    expect(none.reach?.map(({ comes }) => comes)).toEqual([0, 3600]);
  });

  it('says how long it can be for an amount', async () => {
    const { stretches, putIn } = await sought('price at most 275', 'long');
    expect(stretches).toHaveLength(1);
    const { from, to } = stretches[0] as (typeof stretches)[number];
    expect(from.at).toBe(12);
    // 3 square feet are 43 1/5 in: the last eighth under it.
    expect(to.at).toBe(43.125);
    expect(putIn(to.at)).toBe(267);
    expect(putIn(to.at + 0.125)).toBe(276);
  });

  it('keeps checks where that is asked for, and tells which answers break one', async () => {
    const free = await sought('smooth >= 290', 'long');
    expect(free.stretches.map(({ to }) => to.at)).toEqual([120]);
    const kept = await sought('smooth >= 290', 'long', '', true);
    const [{ from, to }] = kept.stretches as [(typeof kept.stretches)[number]];
    // The cube root of 600,000 is 84.34: the sag says stop above it.
    expect([from.at, to.at]).toEqual([80, 84.25]);
    expect(kept.refused.length).toBeGreaterThan(0);
    expect(kept.refused.every(({ failing }) => failing.some(({ name }) => name === 'Sag'))).toBe(
      true,
    );
  });

  it('counts what is no number, and looks over it', async () => {
    const { lost, crossings } = await sought('broken 99', 'long');
    expect(lost).toBeGreaterThan(0);
    expect(crossings.map(({ exact }) => exact?.at)).toEqual([99]);
  });

  it('goes by its own steps where a range says them', async () => {
    const { crossings, tried } = await sought('boards 4', 'boards');
    expect(crossings.map(({ exact }) => exact?.at)).toEqual([4]);
    expect(tried).toBe(9);
    const { stretches } = await sought('sag <= 20000', 'long', '12..120/3');
    expect(stretches.map(({ to }) => to.at)).toEqual([57]);
  });

  it('answers for the dining table what the engine comes to', async () => {
    const book = template('dining-table');
    const { stretches, putIn } = await sought(
      'price at most 4000',
      'top_length',
      '84..96/2',
      false,
      book,
    );
    const { to } = stretches.at(-1) as (typeof stretches)[number];
    expect(to.comes).toBeLessThanOrEqual(4000);
    expect(putIn(to.at)).toBeCloseTo(to.comes ?? 0, 6);
  });

  it.each([
    ['price 3', 'area', '', /is calculated/],
    ['price 3', 'longg', '', /long/],
    ['price 3', 'long', '1..5', /outside what this cell takes/],
    ['price 3', 'long', 'soon', /no range/],
    ['price', 'long', '', /no goal|should be/],
    ['prize 3', 'long', '', /price/],
    ['price soon', 'long', '', /./],
  ])('refuses %s by %s %s with a sentence', async (goal, name, range, says) => {
    const book = shelf();
    const before = JSON.stringify(book.document());
    await expect(sought(goal, name, range, false, book)).rejects.toThrow(says);
    await expect(sought(goal, name, range, false, book)).rejects.toBeInstanceOf(StudyFault);
    expect(JSON.stringify(book.document())).toBe(before);
  });
});
