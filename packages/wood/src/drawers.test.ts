import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawerGap, drawerHeight, drawerWidth } from './drawers.ts';
import { moveTangential } from './species.ts';
import { expectFault, faultOf } from './testdata/faults.ts';

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('drawers by season', () => {
  // Wood Handbook equation 13-2, by hand: 5-7/8 in of soft maple, 7 to 12 %
  it('swells by the handbook’s equation', () => {
    const swollen = 5.875 * (1 + moveTangential('red maple') * 5);
    expect(drawerGap(6, 5.875, 'red maple', 7, 12)).toBeCloseTo(6 - swollen, 9);
  });

  it('the height leaves just the gap in the humid season', () => {
    fc.assert(
      fc.property(size(3, 14), size(5, 9), size(0, 6), (opening, dry, more) => {
        const height = drawerHeight(opening, 'white oak', dry, dry + more, 1 / 16);
        expect(drawerGap(opening, height, 'white oak', dry, dry + more)).toBeCloseTo(1 / 16, 9);
        expect(drawerGap(opening, height, 'white oak', dry, dry)).toBeGreaterThanOrEqual(
          1 / 16 - 1e-9,
        );
      }),
    );
  });

  it('does not count on a drawer that shrinks after it was cut', () => {
    expect(drawerHeight(6, 'white oak', 12, 7, 0)).toBe(6);
  });

  it('says that a drawer sticks, and how high it may be', () => {
    const sticks = faultOf(() => drawerGap(6, 6, 'white oak', 7, 12));
    expect(sticks.detail.argument).toBe('drawer_height');
    expect(sticks.message).toContain('sticks');
    expectFault(() => drawerHeight(0.02, 'white oak', 7, 12), 'range', 'least_gap');
  });
});

describe('DRAWER_WIDTH', () => {
  it('fills the opening with drawers, runners and dividers', () => {
    expect(drawerWidth(18)).toBe(17);
    fc.assert(
      fc.property(size(20, 60), size(0, 0.6), fc.integer({ min: 1, max: 3 }), (open, room, n) => {
        const width = drawerWidth(open, room, n, 0.75);
        expect(n * (width + 2 * room) + (n - 1) * 0.75).toBeCloseTo(open, 9);
      }),
    );
    expectFault(() => drawerWidth(1, 0.5), 'range', 'clearance');
  });
});
