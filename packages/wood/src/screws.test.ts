import { describe, expect, it } from 'vitest';
import { screwHold } from './fastenings.ts';
import { withOwnTables } from './own.ts';
import { screwSize } from './screw-size.ts';
import { screwSideLoad } from './screws.ts';
import { expectFault } from './testdata/faults.ts';

describe('SCREW_SIDE_LOAD', () => {
  // an engineers' formula handbook, equation 6.38, read: allowable p = C D², C = 4800 for the densest group,
  // 3960 Douglas-fir, 3240 western hemlock, 2520 eastern hemlock; the loads where slip begins are 4/3 of them
  it.each([
    ['white oak', 4800],
    ['Douglas-fir, coast', 3960],
    ['hemlock, western', 3240],
    ['hemlock, eastern', 2520],
  ])('%s: 4/3 of %d D²', (species, allowable) => {
    const { diameter } = screwSize(10);
    const load = screwSideLoad(10, 2, species);
    expect(load / ((4 / 3) * allowable * diameter ** 2)).toBeCloseTo(1, 2);
  });

  it('bears all it can from 7 diameters on, less in proportion, nothing under 4', () => {
    const { diameter } = screwSize(8);
    const at = (diameters: number, grain?: string) =>
      screwSideLoad(8, diameters * diameter, 'white oak', grain);
    expect(at(7)).toBe(at(12));
    expect(at(5) / at(7)).toBeCloseTo(5 / 7, 12);
    // NDS 12.5.2, from memory: 0.67 in end grain
    expect(at(8, 'End') / at(8)).toBeCloseTo(0.67, 2);
    expectFault(() => at(3.9), 'range', 'penetration');
    expectFault(() => at(8, 'cross'), 'unknown', 'grain');
  });

  it('takes a metric screw and refuses wood that was not tested', () => {
    const load = screwSideLoad('4 mm', 1.5, 'white oak');
    expect(load / screwSideLoad(8, 1.5, 'white oak')).toBeCloseTo((4 / 25.4 / 0.164) ** 2, 9);
    expectFault(() => screwSideLoad(8, 1.5, 'balsa'), 'unknown', 'species');
  });
});

it('a wood of the maker’s own counts as a hardwood', () => {
  const own = { woods: [{ species: 'Orchard plum', gravity: 0.6 }] };
  const load = withOwnTables(own, () => screwSideLoad(8, 1.5, 'Orchard plum'));
  expect(load).toBe(screwSideLoad(8, 1.5, 'white oak'));
});

describe('SCREW_HOLD in end grain', () => {
  // Wood Handbook chapter 8, from memory: 75 % of side grain; a carpenters' handbook, read, says 60
  it('is three quarters of side grain, unless the steel gives way before', () => {
    expect(screwHold(8, 0.5, 'white oak', 'end') / screwHold(8, 0.5, 'white oak')).toBeCloseTo(
      0.75,
      12,
    );
    expect(screwHold(8, 0.5, 'white oak', 'side')).toBe(screwHold(8, 0.5, 'white oak'));
    expectFault(() => screwHold(8, 0.5, 'white oak', 'face'), 'unknown', 'grain');
  });
});
