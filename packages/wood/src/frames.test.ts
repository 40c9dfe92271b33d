import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { doorSize, framePanelGap, framePanelWidth, frameRail, hingeCount } from './frames.ts';
import { movement } from './moisture.ts';
import { expectFault, faultOf } from './testdata/faults.ts';

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('DOOR_SIZE', () => {
  it('fills the opening with doors and gaps', () => {
    fc.assert(
      fc.property(size(10, 60), size(0, 0.2), fc.integer({ min: 1, max: 4 }), (open, gap, n) => {
        expect(n * doorSize(open, gap, n) + (n + 1) * gap).toBeCloseTo(open, 9);
        expect(n * doorSize(open, gap, n, 0.5) + (n - 1) * gap).toBeCloseTo(open + 1, 9);
      }),
    );
    expectFault(() => doorSize(1, 0.6), 'range', 'gap');
  });
});

describe('FRAME_RAIL', () => {
  // a drawn frame: 16 wide, stiles of 2-1/4 from 0 and to 16, tenons of 3/8 in both
  it('reaches from the end of one tenon to the other', () => {
    const [from, to] = [2.25 - 0.375, 16 - 2.25 + 0.375];
    expect(frameRail(16, 2.25, 0.375)).toBe(to - from);
    expectFault(() => frameRail(4, 2), 'range', 'stile_width');
    expectFault(() => frameRail(16, 2, 2.5), 'range', 'tenon');
  });
});

describe('FRAME_PANEL_WIDTH and FRAME_PANEL_GAP', () => {
  // Wood Handbook equation 13-2, by hand: red oak, flat-sawn, C = 0.00369, 12 in, 7 to 11 %
  it('swells by the handbook’s equation', () => {
    const swollen = 12 * (1 + 0.00369 * 4);
    expect(framePanelGap(12, 11.5, 0.375, 'Oak, northern red', 7, 11)).toBeCloseTo(
      0.375 - (swollen - 11.5) / 2,
      9,
    );
  });

  it('the width leaves just the gap in the humid season, and more in a dry one', () => {
    fc.assert(
      fc.property(size(4, 20), size(0.25, 0.6), size(5, 9), size(0, 5), (open, deep, dry, more) => {
        const width = framePanelWidth(open, deep, 'cherry, black', dry, dry + more, 1 / 32);
        const gap = (at: number) => framePanelGap(width, open, deep, 'cherry, black', dry, at);
        expect(gap(dry + more)).toBeCloseTo(1 / 32, 9);
        expect(gap(dry)).toBeGreaterThanOrEqual(gap(dry + more) - 1e-9);
      }),
    );
  });

  it('moves half of what MOVEMENT says in each groove', () => {
    const gap = (at: number) => framePanelGap(12, 11.5, 0.4, 'white ash', 8, at, 'quarter');
    expect(gap(6) - gap(8)).toBeCloseTo(-movement(12, 'white ash', 8, 6, 'quarter') / 2, 12);
  });

  it('says when a panel pushes its frame apart or falls out of it', () => {
    const burst = faultOf(() => framePanelGap(12.24, 11.5, 0.375, 'red oak', 7, 12));
    expect(burst.message).toContain('pushes the frame apart');
    const out = faultOf(() => framePanelGap(11.6, 11.5, 0.375, 'red oak', 12, 6));
    expect(out.message).toContain('leaves the groove');
    expectFault(() => framePanelWidth(40, 0.25, 'red oak', 6, 14), 'range', 'groove_depth');
  });
});

describe('HINGE_COUNT', () => {
  // charts of hardware dealers, read: under 40 in 2, to 60 in 3, to 80 in 4, to 85 in 5;
  // 40 to 60 in and 13 to 20 lb 3; a maker of hinges: 4 up to about 22.5 lb, 5 at about 35 lb
  it.each([
    [30, 10, 2],
    [50, 18, 3],
    [70, 20, 4],
    [84, 22, 5],
    [30, 18, 3],
    [50, 22.5, 4],
    [50, 35, 5],
  ])('%d in and %d lb: %d', (height, weight, count) => {
    expect(hingeCount(height, weight)).toBe(count);
  });

  it('never falls with height or weight, and ends where the charts end', () => {
    fc.assert(
      fc.property(size(1, 84), size(0, 34), (height, weight) => {
        expect(hingeCount(height + 1, weight + 1)).toBeGreaterThanOrEqual(
          hingeCount(height, weight),
        );
      }),
    );
    expectFault(() => hingeCount(90), 'range', 'height');
    expectFault(() => hingeCount(60, 60), 'range', 'weight');
  });
});
