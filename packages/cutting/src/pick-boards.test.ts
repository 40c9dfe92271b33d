import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CuttingFault } from './fault.ts';
import { pickBoards } from './pick-boards.ts';

/** Least width that is left over, and fewest boards for it, over every subset. */
function byTrying(widths: readonly number[], target: number, loss: number) {
  let best: { over: number; count: number; first: string } | undefined;
  for (let set = 1; set < 2 ** widths.length; set += 1) {
    const chosen = widths.map((_, i) => (set >> i) % 2 === 1);
    if (widths.some((width, i) => chosen[i] && width <= loss)) continue;
    const count = chosen.filter(Boolean).length;
    const sum = widths.reduce((total, width, i) => total + (chosen[i] ? width : 0), 0);
    const over = sum - loss * (count - 1) - target;
    if (over < 0) continue;
    // In the order of the rack, a board taken earlier comes first.
    const first = chosen.map((taken) => (taken ? '0' : '1')).join('');
    const rank = (one: { over: number; count: number; first: string }) =>
      one.over * 1e4 + one.count;
    const now = { over, count, first };
    if (best === undefined || rank(now) < rank(best)) best = now;
    else if (rank(now) === rank(best) && first < best.first) best = now;
  }
  return best;
}

const racks = fc.record({
  widths: fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 12 }),
  target: fc.integer({ min: 1, max: 120 }),
  loss: fc.integer({ min: 0, max: 3 }),
});

describe('BOARDS_PICK', () => {
  it('is the best of all subsets, in eighths of an inch', () => {
    fc.assert(
      fc.property(racks, ({ widths, target, loss }) => {
        const best = byTrying(widths, target, loss);
        const ask = () =>
          pickBoards(
            widths.map((width) => width / 8),
            target / 8,
            loss / 8,
          );
        if (best === undefined) {
          expect(ask).toThrow(expect.objectContaining({ code: 'not-enough' }));
          return;
        }
        const pick = ask();
        expect(pick.exact).toBe(true);
        expect(pick.over).toBe(best.over / 8);
        expect(pick.count).toBe(best.count);
        expect(pick.picked.map((taken) => (taken ? '0' : '1')).join('')).toBe(best.first);
      }),
      { numRuns: 500 },
    );
  });

  it('chooses from 60 boards, exactly', () => {
    const widths = Array.from({ length: 60 }, (_, i) => 3 + ((i * 37) % 64) / 16);
    const pick = pickBoards(widths, 42, 1 / 8);
    expect(pick).toMatchObject({ exact: true, over: 0, width: 42 });
  });

  it('says when widths are too odd to be told apart, and still reaches the target', () => {
    const widths = Array.from({ length: 60 }, (_, i) => 80 + ((i * 7919) % 1009) / 31);
    const pick = pickBoards(widths, 1067, 3);
    expect(pick.exact).toBe(false);
    expect(pick.width).toBeGreaterThanOrEqual(1067);
    expect(pick.over).toBeLessThan(0.2);
  });

  it('takes six boards of a sixth for the whole, and three of a third', () => {
    expect(pickBoards(new Array<number>(8).fill(100 / 3), 100).count).toBe(3);
    expect(pickBoards(new Array<number>(8).fill(100 / 6), 100).count).toBe(6);
  });

  it('refuses more boards than it can weigh', () => {
    expect(() => pickBoards(new Array<number>(61).fill(4), 20)).toThrow(CuttingFault);
    expect(() => pickBoards(new Array<number>(61).fill(4), 20)).toThrow(/61 boards; up to 60/);
  });

  it('says how wide all boards are together when that is too little', () => {
    expect(() => pickBoards([4, 5], 20, 0.25)).toThrow(/All 2 boards .* are 8\.75 wide.* is 20\./);
  });

  it.each([
    [[0, 3], 2, 0, /board 1 is 0/],
    [[3], 0, 0, /target width is 0/],
    [[3], 2, -1, /joint loss is -1/],
  ])('refuses %j for %d with loss %d', (widths, target, loss, says) => {
    expect(() => pickBoards(widths, target, loss)).toThrow(says);
  });
});
