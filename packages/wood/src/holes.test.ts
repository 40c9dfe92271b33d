import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { screwDiameter } from './fastenings.ts';
import { screwClearanceHole, screwPilotHole } from './holes.ts';
import { expectFault } from './testdata/faults.ts';

const gauges = fc.integer({ min: 0, max: 24 });
const MM = 1 / 25.4;

describe('SCREW_CLEARANCE_HOLE', () => {
  // drill charts of the trade, value from memory: No. 6 9/64, No. 8 11/64, No. 12 7/32 in
  it.each([
    [6, 9 / 64],
    [8, 11 / 64],
    [10, 13 / 64],
    [12, 14 / 64],
  ])('No. %i passes through %d in', (gauge, bit) => {
    expect(screwClearanceHole(gauge)).toBeCloseTo(bit, 12);
  });

  it('clears the shank by less than one bit, in sixty-fourths and in half millimetres', () => {
    fc.assert(
      fc.property(gauges, fc.constantFrom(1 / 64, 0.5 * MM), (gauge, step) => {
        const spare = screwClearanceHole(gauge, step) - screwDiameter(gauge);
        expect(spare).toBeGreaterThan(-1e-9);
        expect(spare).toBeLessThan(step);
      }),
    );
  });

  it('refuses a set of bits too coarse to tell screws apart', () => {
    expectFault(() => screwClearanceHole(8, 1 / 16), 'range', 'bit_step');
  });
});

describe('SCREW_PILOT_HOLE', () => {
  // Wood Handbook chapter 8, 70 and 90 % of a root of 2/3 shank (from memory), worked by hand:
  // No. 8: 0.164 x 2/3 = 0.1093; x 0.7 = 0.0765 (5/64 = 0.0781); x 0.9 = 0.0984 (6/64 = 0.0938)
  it.each([
    [8, 'eastern white pine', 5 / 64],
    [8, 'white oak', 6 / 64],
    [10, 'white oak', 7 / 64],
  ])('No. %i in %s: %d in', (gauge, species, bit) => {
    expect(screwPilotHole(gauge, species)).toBeCloseTo(bit, 12);
  });

  it('is never smaller in hardwood, and always smaller than the clearance hole', () => {
    fc.assert(
      fc.property(gauges, (gauge) => {
        const soft = screwPilotHole(gauge, 'eastern white pine');
        const hard = screwPilotHole(gauge, 'sugar maple');
        expect(soft).toBeGreaterThan(0);
        expect(hard).toBeGreaterThanOrEqual(soft);
        expect(hard).toBeLessThan(screwClearanceHole(gauge));
      }),
    );
  });
});
