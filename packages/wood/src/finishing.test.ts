import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { finishCoverage, finishVolume, gritSteps, sandingHours } from './finishing.ts';
import { expectFault } from './testdata/faults.ts';

const areas = fc.double({ min: 1, max: 1e5, noNaN: true });

describe('FINISH_VOLUME', () => {
  // by hand: 400 ft² at 400 ft²/gal is a gallon, 128 fl oz
  it('is a gallon where a gallon covers it', () => {
    expect(finishVolume(400 * 144, 1, (400 * 144) / 128, 0, 0)).toBeCloseTo(128, 10);
    expect(finishVolume(400 * 144, 2, (400 * 144) / 128, 20, 0)).toBeCloseTo(320, 10);
  });

  // common practice, no source: bare wood takes a quarter more of the first coat
  it('has the first coat on bare wood take more than the next', () => {
    const [one, two, three] = [1, 2, 3].map((coats) => finishVolume(100, coats, 450));
    const next = (two as number) - (one as number);
    expect(one as number).toBeCloseTo(1.25 * next, 12);
    expect((three as number) - (two as number)).toBeCloseTo(next, 12);
    expectFault(() => finishVolume(100, 1, 450, 0, 301), 'range', 'first_more_percent');
  });

  it('adds up over surfaces and coats', () => {
    fc.assert(
      fc.property(areas, areas, fc.integer({ min: 1, max: 8 }), (a, b, coats) => {
        const both = finishVolume(a + b, coats, 450);
        expect(finishVolume(a, coats, 450) + finishVolume(b, coats, 450)).toBeCloseTo(both, 6);
        expect(coats * finishVolume(a, 1, 450, 0, 0)).toBeCloseTo(
          finishVolume(a, coats, 450, 0, 0),
          6,
        );
      }),
    );
  });

  it('refuses half a coat, no coverage, and losing nearly all', () => {
    expectFault(() => finishVolume(100, 1.5, 450), 'range', 'coats');
    expectFault(() => finishVolume(100, 1, 0), 'range', 'coverage');
    expectFault(() => finishVolume(100, 1, 450, 96), 'range', 'loss_percent');
  });
});

describe('FINISH_COVERAGE', () => {
  // values from memory, common practice: 400 ft²/gal brushed varnish, 1,000 hard-wax oil
  it('is in² for a fl oz', () => {
    expect(finishCoverage(' Varnish ')).toBeCloseTo((400 * 144) / 128, 12);
    expect(finishCoverage('hard-wax oil')).toBeCloseTo((1000 * 144) / 128, 12);
  });

  it('names the nearest kinds when it knows none', () => {
    expectFault(() => finishCoverage('shelac'), 'unknown', 'finish');
    expect(() => finishCoverage('shelac')).toThrow(/shellac/);
  });
});

describe('GRIT_STEPS', () => {
  it.each([
    // the function's own example
    [80, 220, '80 → 120 → 180 → 220'],
    [80, 180, '80 → 120 → 180'],
    [120, 120, '120'],
    [150, 180, '150 → 180'],
  ])('from %i to %i: %s', (first, last, steps) => {
    expect(gritSteps(first, last)).toBe(steps);
  });

  it('refuses a grit that is not made, and going back', () => {
    expectFault(() => gritSteps(90, 220), 'range', 'first');
    expectFault(() => gritSteps(220, 80), 'range', 'last');
  });
});

describe('SANDING_HOURS', () => {
  // the rule itself: a minute for a square foot and grit; 60 ft² with four grits take four hours
  it('is a minute for each square foot and grit', () => {
    expect(sandingHours(60 * 144, 80, 220)).toBeCloseTo(4, 12);
    expect(sandingHours(30 * 144, 120, 120)).toBeCloseTo(0.5, 12);
    expect(sandingHours(60 * 144, 80, 220, 120 * 144)).toBeCloseTo(2, 12);
  });
});
