import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fastenerCount,
  pocketScrew,
  screwDiameter,
  screwHold,
  screwLongest,
  slotLength,
} from './fastenings.ts';
import { clampCount } from './panel.ts';
import { expectFault } from './testdata/faults.ts';

const thicknesses = fc.double({ min: 0.25, max: 4, noNaN: true });

describe('SCREW_DIAMETER', () => {
  // ASME B18.6.1 (formula from memory); No. 10 = 0.190 in read
  it.each([
    [0, 0.06],
    [4, 0.112],
    [6, 0.138],
    [8, 0.164],
    [10, 0.19],
    [12, 0.216],
    [14, 0.242],
    [24, 0.372],
  ])('No. %i is %d in', (gauge, diameter) => {
    expect(screwDiameter(gauge)).toBeCloseTo(diameter, 12);
  });

  it('steps up by 0.013 in a gauge', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 23 }), (gauge) => {
        expect(screwDiameter(gauge + 1) - screwDiameter(gauge)).toBeCloseTo(0.013, 12);
      }),
    );
  });

  it('refuses gauges that are not made', () => {
    for (const gauge of [-1, 25, 7.5]) expectFault(() => screwDiameter(gauge), 'range', 'gauge');
    for (const size of ['1 mm', '12 mm', 'No. 25'])
      expectFault(() => screwDiameter(size), 'range', 'gauge');
    expectFault(() => screwDiameter('M6 bolt'), 'unknown', 'gauge');
  });

  // DIN 7998 (read): the size of a metric wood screw is the outside diameter of its thread
  it.each([
    ['4 mm', 4],
    ['4', 4],
    ['4.5 x 40', 4.5],
    ['4,5x40 mm', 4.5],
    ['3.5×30', 3.5],
  ])('%s is %d mm, and no gauge', (size, millimetres) => {
    expect(screwDiameter(size) * 25.4).toBeCloseTo(millimetres, 12);
  });

  it('knows a gauge by words too', () => {
    for (const size of ['No. 8', 'no 8', '#8', 'Nr. 8'])
      expect(screwDiameter(size)).toBe(screwDiameter(8));
  });
});

describe('POCKET_SCREW', () => {
  // common practice, no source
  it.each([
    [0.5, 1],
    [0.75, 1.25],
    [1, 1.5],
    [1.5, 2.5],
    [0.8, 1.25],
    [19 / 25.4, 1.25],
    [38 / 25.4, 2.5],
    [12 / 25.4, 1],
    // an 18 mm sheet is what is sold as 3/4 in
    [18 / 25.4, 1.25],
    [15 / 25.4, 1],
    [23 / 32, 1.25],
  ])('%d in takes %d in', (thickness, screw) => {
    expect(pocketScrew(thickness)).toBe(screw);
  });

  it('never gets shorter in a thicker piece', () => {
    const range = fc.double({ min: 0.5, max: 1.4, noNaN: true });
    fc.assert(
      fc.property(range, fc.double({ min: 0, max: 0.1, noNaN: true }), (thickness, more) => {
        expect(pocketScrew(thickness + more)).toBeGreaterThanOrEqual(pocketScrew(thickness));
      }),
    );
  });

  it('refuses thicknesses without a usual screw', () => {
    expectFault(() => pocketScrew(0.4), 'range', 'thickness');
    expectFault(() => pocketScrew(2), 'range', 'thickness');
  });
});

describe('SCREW_LONGEST', () => {
  it.each([
    [1.5, 1.75, 0.25, 3],
    [0.75, 0.75, 0.25, 1.25],
    [1.5, 1, 0, 2.5],
    [0.1, 0.5, 0.1, 0.5],
    [19.05 / 25.4, 19.05 / 25.4, 6.35 / 25.4, 1.25],
  ])('through %d into %d keeping %d back: %d in', (through, into, keep, screw) => {
    expect(screwLongest(through, into, keep)).toBe(screw);
  });

  it('bites, does not come through, and the next length would', () => {
    fc.assert(
      fc.property(
        thicknesses,
        thicknesses,
        fc.double({ min: 0, max: 0.25, noNaN: true }),
        (through, into, keep) => {
          fc.pre(into - keep > 0.5);
          const screw = screwLongest(through, into, keep);
          const limit = through + into - keep;
          expect(screw).toBeGreaterThan(through);
          expect(screw).toBeLessThanOrEqual(limit + 1e-9);
          expect(screw + 0.25).toBeGreaterThan(limit);
          expect(Number.isInteger(screw * 4)).toBe(true);
        },
      ),
    );
  });

  // common practice, no source: metric screws are stocked in steps of 5 mm; 30 + 22 - 6 = 46 mm
  it('takes the steps of metric stock', () => {
    expect(screwLongest(30 / 25.4, 22 / 25.4, 6 / 25.4, 5 / 25.4) * 25.4).toBeCloseTo(45, 9);
    expectFault(() => screwLongest(1, 1, 0, 0), 'range', 'length_step');
  });

  it('refuses when no standard length would bite', () => {
    expectFault(() => screwLongest(1.5, 0.25, 0.25), 'range', 'into');
    expectFault(() => screwLongest(0.1, 0.2, 0), 'range', 'into');
    expectFault(() => screwLongest(1, 0.5, 0.75), 'range', 'keep_back');
  });
});

describe('FASTENER_COUNT', () => {
  it('is counted like clamps', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 12, max: 120, noNaN: true }),
        fc.double({ min: 2, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        (length, spacing, ends) => {
          expect(fastenerCount(length, spacing, ends)).toBe(clampCount(length, spacing, ends));
        },
      ),
    );
    expect(fastenerCount(66, 12, 3)).toBe(6);
  });
});

describe('SCREW_HOLD', () => {
  // Wood Handbook chapter 8 (value from memory): p = 15,700 G² D L, and in metric 108.25 G² D L
  it('gives the withdrawal equation in both unit systems', () => {
    const pull = screwHold(10, 0.5, 'white oak');
    expect(pull).toBeCloseTo(15_700 * 0.68 ** 2 * 0.19 * 0.5, 9);
    const newtons = 108.25 * 0.68 ** 2 * (0.19 * 25.4) * 12.7;
    expect((pull * 4.4482216152605) / newtons).toBeCloseTo(1, 3);
  });

  // code form read: 2850 G² D allows 109 lbf per inch at G = 0.45 for 0.19 in; the ratio is 5.5
  it('is about five and a half times what design codes allow', () => {
    const perInch = (15_700 * 0.45 ** 2 * screwDiameter(10)) / 109;
    expect(perInch).toBeCloseTo(5.5, 1);
  });

  it('grows with the length gripped in proportion', () => {
    fc.assert(
      fc.property(thicknesses, (length) => {
        fc.pre(length <= 1);
        const pine = 'eastern white pine';
        expect(screwHold(8, 2 * length, pine)).toBeCloseTo(2 * screwHold(8, length, pine), 6);
      }),
    );
  });

  // Wood Handbook chapter 8 (values from memory): the equation holds for screws of 2 in of No. 7 to
  // 16, 3 in of No. 12 to 20, and none outside No. 1 to 20
  it('goes no further than the screws that were tested', () => {
    expect(screwHold(8, 2, 'eastern white pine')).toBeGreaterThan(0);
    expectFault(() => screwHold(8, 2.1, 'eastern white pine'), 'range', 'penetration');
    expect(screwHold(12, 3, 'eastern white pine')).toBeGreaterThan(0);
    expectFault(() => screwHold(12, 3.1, 'eastern white pine'), 'range', 'penetration');
    for (const gauge of [0, 22, '8.1 mm'])
      expectFault(() => screwHold(gauge, 0.5, 'teak'), 'range', 'gauge');
  });

  // steel of 60,000 psi (SAE J429 grade 1, value from memory) over the root of No. 8, 0.131 in (read):
  // pi/4 x 0.131² x 60,000 = 808.7 lbf, by hand
  it('is never more than the screw itself bears', () => {
    expect(screwHold(8, 1, 'white oak')).toBeCloseTo(808.7, 1);
    expect(screwHold(8, 1.5, 'white oak')).toBe(screwHold(8, 1, 'white oak'));
  });

  it('refuses no grip at all', () => {
    expectFault(() => screwHold(8, 0, 'teak'), 'range', 'penetration');
  });
});

describe('SLOT_LENGTH', () => {
  it('holds the screw, its travel and what is spare', () => {
    // common practice, no source
    expect(slotLength(0.4, 0.164, 0.0625)).toBeCloseTo(0.6265, 12);
    expect(slotLength(0, 0.164)).toBe(0.164);
  });

  it('grows by as much as the movement does', () => {
    fc.assert(
      fc.property(thicknesses, thicknesses, (movement, more) => {
        expect(slotLength(movement + more, 0.2) - slotLength(movement, 0.2)).toBeCloseTo(more, 12);
      }),
    );
  });

  it('refuses a movement with a sign: the travel has none', () => {
    expectFault(() => slotLength(-0.4, 0.164), 'range', 'movement');
  });
});
