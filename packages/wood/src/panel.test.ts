import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clampCount,
  clampForce,
  glueStages,
  glueVolume,
  panelBoards,
  panelBoardWidth,
} from './panel.ts';
import { expectFault } from './testdata/faults.ts';

const widths = fc.double({ min: 1, max: 200, noNaN: true });
const narrow = fc.double({ min: 0.5, max: 12, noNaN: true });

describe('PANEL_BOARDS', () => {
  it.each([
    [42, 5.5, 8],
    [42, 6, 7],
    [42, 7 / 3, 18],
    [42, 41.999, 2],
    [42, 42, 1],
    [5, 42, 1],
    [0.3, 0.1, 3],
  ])('%d in of boards up to %d in: %i', (width, widest, count) => {
    expect(panelBoards(width, widest)).toBe(count);
  });

  it('is the fewest whose width stays within the widest', () => {
    fc.assert(
      fc.property(widths, narrow, (width, widest) => {
        const count = panelBoards(width, widest);
        expect(panelBoardWidth(width, count)).toBeLessThanOrEqual(widest * (1 + 1e-11));
        if (count > 1) expect(panelBoardWidth(width, count - 1)).toBeGreaterThan(widest);
      }),
    );
  });

  it('is n for n equal parts of any width', () => {
    fc.assert(
      fc.property(widths, fc.integer({ min: 1, max: 200 }), (width, n) => {
        expect(panelBoards(width, width / n)).toBe(n);
      }),
    );
  });

  // geometry: 42 in of boards of 5-1/4 in is 8 boards, and 7 joints of 1/16 in make them wider than that
  it('counts what jointing takes off, so that no board has to be wider than the widest', () => {
    expect(panelBoards(42, 5.25)).toBe(8);
    expect(panelBoards(42, 5.25, 1 / 16)).toBe(9);
    const size = fc.double({ min: 0.5, max: 100, noNaN: true });
    fc.assert(
      fc.property(
        size,
        size,
        fc.double({ min: 0, max: 0.4, noNaN: true }),
        (width, widest, loss) => {
          const count = panelBoards(width, widest, loss);
          expect(panelBoardWidth(width, count, loss)).toBeLessThanOrEqual(widest * (1 + 1e-9));
          if (count > 1)
            expect(panelBoardWidth(width, count - 1, loss)).toBeGreaterThan(widest * (1 - 1e-9));
        },
      ),
    );
    expectFault(() => panelBoards(42, 0.25, 0.25), 'range', 'joint_loss');
  });

  it('refuses widths of nothing and counts beyond sense', () => {
    expectFault(() => panelBoards(0, 5), 'range', 'width');
    expectFault(() => panelBoards(42, 0), 'range', 'widest');
    expectFault(() => panelBoards(42, 1e-9), 'range', 'widest');
  });
});

describe('PANEL_BOARD_WIDTH', () => {
  it('is a plain share without loss', () => {
    expect(panelBoardWidth(42, 8)).toBe(5.25);
  });

  it('adds up to the panel once every joint has cost its loss', () => {
    fc.assert(
      fc.property(
        widths,
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (width, count, loss) => {
          const glued = panelBoardWidth(width, count, loss) * count - (count - 1) * loss;
          expect(glued).toBeCloseTo(width, 9);
        },
      ),
    );
  });

  it('refuses part of a board', () => {
    expectFault(() => panelBoardWidth(42, 7.5), 'range', 'count');
    expectFault(() => panelBoardWidth(42, 8, -0.1), 'range', 'joint_loss');
  });
});

describe('GLUE_STAGES', () => {
  it.each([
    [1, 2, 0],
    [2, 2, 1],
    [8, 2, 3],
    [9, 2, 4],
    [9, 3, 2],
    [125, 5, 3],
    [243, 3, 5],
    [1000, 10, 3],
  ])('%i boards, %i at once: %i rounds', (boards, atOnce, rounds) => {
    expect(glueStages(boards, atOnce)).toBe(rounds);
  });

  it('is the least power that reaches the boards', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: 2, max: 50 }), (n, k) => {
        const rounds = glueStages(n, k);
        expect(k ** rounds).toBeGreaterThanOrEqual(n);
        if (rounds > 0) expect(k ** (rounds - 1)).toBeLessThan(n);
      }),
    );
  });

  it('refuses gluing one piece to nothing', () => {
    expectFault(() => glueStages(8, 1), 'range', 'at_once');
    expectFault(() => glueStages(0, 2), 'range', 'boards');
  });
});

describe('CLAMP_COUNT', () => {
  it.each([
    [84, 12, 0, 8],
    [84, 12, 2, 8],
    [84, 12, 6, 7],
    [85, 12, 0, 9],
    [10, 12, 5, 1],
    [84, 7 / 3, 0, 37],
  ])('%d in at %d in, %d in from the ends: %i', (length, spacing, ends, count) => {
    expect(clampCount(length, spacing, ends)).toBe(count);
  });

  it('leaves no gap wider than asked, and would with one clamp less', () => {
    fc.assert(
      fc.property(widths, narrow, (length, spacing) => {
        const count = clampCount(length, spacing);
        expect(length / (count - 1)).toBeLessThanOrEqual(spacing * (1 + 1e-11));
        if (count > 2) expect(length / (count - 2)).toBeGreaterThan(spacing);
      }),
    );
  });

  // force over rating, by hand: 25,200 lbf (84 x 2 in at 150 psi) by clamps rated for 1,000 lbf are 26
  it('counts what gives the force too', () => {
    expect(clampCount(84, 12, 0, 25_200, 1000)).toBe(26);
    expect(clampCount(84, 12, 0, 4000, 1000)).toBe(8);
    expect(clampCount(84, 12, 0, 0, 1000)).toBe(8);
    expectFault(() => clampCount(84, 12, 0, 25_200), 'kind', 'clamp_rating');
    expectFault(() => clampCount(84, 12, 0, undefined, 1000), 'kind', 'force');
    expectFault(() => clampCount(84, 12, 0, 25_200, 0), 'range', 'clamp_rating');
  });

  it('refuses end distances that overlap', () => {
    expectFault(() => clampCount(10, 5, 6), 'range', 'end_distance');
  });
});

describe('CLAMP_FORCE and GLUE_VOLUME', () => {
  // force = pressure x area; 84 x 1.75 in at 150 psi
  it('presses a joint by pressure times face', () => {
    expect(clampForce(84, 1.75, 150)).toBe(22050);
  });

  // 231 in³ to the gallon of 128 fl oz (NIST Handbook 44): 200 ft² per gallon is 225 in² per fl oz,
  // and a fluid ounce then lies 0.008 in thick
  it('spreads a fluid ounce over 225 in² unless told otherwise', () => {
    expect(glueVolume(225)).toBe(1);
    expect(231 / 128 / 225).toBeCloseTo(0.008, 4);
    expect(glueVolume(1000, 250)).toBe(4);
  });

  it('grow with the joint in proportion', () => {
    fc.assert(
      fc.property(widths, widths, narrow, (a, b, t) => {
        expect(clampForce(a + b, t, 100)).toBeCloseTo(
          clampForce(a, t, 100) + clampForce(b, t, 100),
          6,
        );
        expect(glueVolume(a + b)).toBeCloseTo(glueVolume(a) + glueVolume(b), 12);
      }),
    );
  });

  it('refuse nothing and less', () => {
    expectFault(() => clampForce(84, 0, 150), 'range', 'thickness');
    expectFault(() => glueVolume(100, 0), 'range', 'spread');
    expectFault(() => glueVolume(-1), 'range', 'area');
  });
});
