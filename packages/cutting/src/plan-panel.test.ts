import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PanelJob, planPanel } from './plan-panel.ts';

const job = fc
  .record({
    boards: fc.array(
      fc.record({
        width: fc.integer({ min: 3, max: 12 }),
        length: fc.integer({ min: 20, max: 120 }),
      }),
      { minLength: 1, maxLength: 8 },
    ),
    panelWidth: fc.integer({ min: 3, max: 40 }),
    boardLength: fc.integer({ min: 20, max: 60 }),
    leastWidth: fc.integer({ min: 2, max: 3 }),
    more: fc.integer({ min: 0, max: 4 }),
    jointLoss: fc.integer({ min: 0, max: 1 }),
    kerf: fc.integer({ min: 0, max: 1 }),
  })
  .map(
    ({ boards, more, ...rest }): PanelJob => ({
      ...rest,
      widestWidth: rest.leastWidth + more,
      boards: boards.map((board, i) => ({ key: `b${i}`, ...board })),
    }),
  );

/** Net width a board gives, by trying every number of strips and adding up whole inches. */
function gives({ boardLength, leastWidth, widestWidth, ...rest }: PanelJob, index: number) {
  const { jointLoss = 0, kerf = 0, boards } = rest;
  const { width, length } = boards[index] ?? { width: 0, length: 0 };
  let lengths = 0;
  while ((lengths + 1) * boardLength + lengths * kerf <= length) lengths += 1;
  let best = 0;
  for (let strips = 1; strips * leastWidth + (strips - 1) * kerf <= width; strips += 1) {
    const sum = Math.min(strips * widestWidth, width - (strips - 1) * kerf);
    best = Math.max(best, sum - strips * jointLoss);
  }
  return best * lengths;
}

function leastFace(given: PanelJob): number {
  const n = given.boards.length;
  let best = Number.POSITIVE_INFINITY;
  for (let set = 1; set < 2 ** n; set += 1) {
    let net = given.jointLoss ?? 0;
    let face = 0;
    given.boards.forEach(({ width, length }, i) => {
      if ((set >> i) % 2 === 0) return;
      net += gives(given, i);
      face += width * length;
    });
    if (net >= given.panelWidth) best = Math.min(best, face);
  }
  return best;
}

describe('boards of a panel from boards of random size', () => {
  it('touch the least face of all choices, and each board holds what is cut from it', () => {
    fc.assert(
      fc.property(job, (given) => {
        const least = leastFace(given);
        if (least === Number.POSITIVE_INFINITY) {
          expect(() => planPanel(given)).toThrow(expect.objectContaining({ code: 'not-enough' }));
          return;
        }
        const plan = planPanel(given);
        expect(plan).toMatchObject({ area: least, bound: least, proven: true });
        expect(plan.width).toBeGreaterThanOrEqual(given.panelWidth - 1e-6);
        expect(plan.over).toBeLessThanOrEqual(given.leastWidth);
        let sum = 0;
        for (const { index, panelBoards } of plan.boards) {
          const board = given.boards[index] as { width: number; length: number };
          panelBoards.forEach((one, i) => {
            sum += one.width;
            expect(one.width).toBeGreaterThanOrEqual(given.leastWidth - 1e-6);
            expect(one.width).toBeLessThanOrEqual(given.widestWidth + 1e-6);
            expect(one.across + one.width).toBeLessThanOrEqual(board.width + 1e-6);
            expect(one.along + given.boardLength).toBeLessThanOrEqual(board.length + 1e-6);
            const before = panelBoards[i - 1];
            if (before === undefined) return;
            const clear =
              before.along === one.along
                ? one.across - before.across - before.width
                : one.along - before.along - given.boardLength;
            expect(clear).toBeGreaterThanOrEqual((given.kerf ?? 0) - 1e-6);
          });
        }
        expect(sum - (given.jointLoss ?? 0) * (plan.count - 1)).toBeCloseTo(plan.width, 6);
      }),
      { numRuns: 400 },
    );
  });

  it('gives a bound where a big rack is not searched to its end', () => {
    const boards = Array.from({ length: 300 }, (_, i) => ({
      key: `b${i}`,
      width: 4 + ((i * 7919) % 101) / 17,
      length: 60 + ((i * 104_729) % 211) / 7,
    }));
    const plan = planPanel({
      boards,
      panelWidth: 480,
      boardLength: 28,
      leastWidth: 2,
      widestWidth: 5,
      jointLoss: 0.125,
      kerf: 0.125,
    });
    expect(plan.bound).toBeLessThanOrEqual(plan.area);
    expect(plan.area / plan.bound).toBeLessThan(1.01);
  });

  it('refuses boards whose widest is narrower than their narrowest', () => {
    const boards = [{ key: 'a', width: 6, length: 96 }];
    const given = { boards, panelWidth: 5, boardLength: 30, leastWidth: 4, widestWidth: 3 };
    expect(() => planPanel(given)).toThrow(
      /widest board of the panel is 3, narrower than the narrowest, 4/,
    );
  });
});
