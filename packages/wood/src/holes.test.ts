import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { screwDiameter } from './fastenings.ts';
import { speciesNames } from './find-species.ts';
import { screwClearanceHole, screwPilotHole } from './holes.ts';
import { specificGravity } from './species.ts';
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
  // NDS 12.1.5.2 (from memory): 90 % of the root over 0.6 ovendry gravity, 70 % below; roots read in a
  // dealer's chart (No. 8 0.131, No. 10 0.158 in), worked by hand:
  // No. 8: 0.131 x 0.7 = 0.0917 (6/64 = 0.0938); x 0.9 = 0.1179 (8/64 = 0.125)
  // No. 10: 0.158 x 0.9 = 0.1422 (9/64 = 0.1406)
  it.each([
    [8, 'eastern white pine', 6 / 64],
    [8, 'white oak', 8 / 64],
    [10, 'white oak', 9 / 64],
    // core 2.8 mm (DIN 7998, from memory) x 0.9 = 2.52 mm
    ['4 mm', 'white oak', 6 / 64],
  ])('%s in %s: %d in', (gauge, species, bit) => {
    expect(screwPilotHole(gauge, species)).toBeCloseTo(bit, 12);
  });

  // Longleaf pine is a softwood of 0.59, basswood a hardwood of 0.37 (Wood Handbook table 5-3b)
  it('is never smaller in denser wood, whatever class it is sold in', () => {
    expect(screwPilotHole(8, 'longleaf pine')).toBeGreaterThan(screwPilotHole(8, 'basswood'));
    const woods = [...speciesNames('specificGravity')].sort(
      (a, b) => specificGravity(a) - specificGravity(b),
    );
    const bits = woods.map((wood) => screwPilotHole(12, wood));
    expect(bits).toEqual([...bits].sort((a, b) => a - b));
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
