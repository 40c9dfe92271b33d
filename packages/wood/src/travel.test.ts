import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectFault } from './testdata/faults.ts';
import {
  buttonTravel,
  recessDepth,
  recessDiameter,
  swivelSwing,
  swivelTravel,
  swivelTravelInLine,
} from './travel.ts';

const thicknesses = fc.double({ min: 0.25, max: 4, noNaN: true });

describe('SWIVEL_TRAVEL', () => {
  // geometry: the hole runs on a circle
  it.each([
    [0.75, 30, 0.75],
    [1, 90, 2],
    [1, 0, 0],
  ])('holes %d in apart swinging %d° travel %d in', (spacing, swing, travel) => {
    expect(swivelTravel(spacing, swing)).toBeCloseTo(travel, 12);
  });

  it('grows with the swing', () => {
    fc.assert(
      fc.property(thicknesses, fc.double({ min: 0, max: 89, noNaN: true }), (spacing, swing) => {
        expect(swivelTravel(spacing, swing + 1)).toBeGreaterThan(swivelTravel(spacing, swing));
      }),
    );
  });

  it('refuses a swing past a quarter turn', () => {
    expectFault(() => swivelTravel(1, 91), 'range', 'swing');
  });
});

describe('SWIVEL_TRAVEL_IN_LINE', () => {
  // geometry: what is left of the radius seen along the movement
  it.each([
    [1, 90, 1],
    [1, 60, 0.5],
    [0.75, 0, 0],
  ])('holes %d in apart turned by %d° come %d in nearer', (spacing, swing, travel) => {
    expect(swivelTravelInLine(spacing, swing)).toBeCloseTo(travel, 12);
  });

  it('never allows more than the same fastener turned by a quarter', () => {
    fc.assert(
      fc.property(thicknesses, fc.double({ min: 0, max: 90, noNaN: true }), (spacing, swing) => {
        expect(swivelTravelInLine(spacing, swing)).toBeLessThanOrEqual(
          swivelTravel(spacing, swing) + 1e-12,
        );
      }),
    );
  });
});

describe('BUTTON_TRAVEL', () => {
  // common practice, no source: worked by hand
  it.each([
    [0.625, 0.1875, 0.125, 0.375],
    [0.625, 0.25, 0.25, 0.25],
    [0.5, 0, 0.25, 0],
  ])('tongue %d, gap %d, hold %d: %d in all', (tongue, gap, hold, travel) => {
    expect(buttonTravel(tongue, gap, hold)).toBeCloseTo(travel, 12);
  });

  it('keeps a third of the tongue in the groove when nothing is said', () => {
    expect(buttonTravel(0.6, 0.3)).toBeCloseTo(buttonTravel(0.6, 0.3, 0.2), 12);
  });

  it('is as far out as in: fitting in the middle of what it has is best', () => {
    fc.assert(
      fc.property(thicknesses, fc.double({ min: 0, max: 0.6, noNaN: true }), (tongue, share) => {
        const best = buttonTravel(tongue, tongue / 3);
        expect(buttonTravel(tongue, tongue * share)).toBeLessThanOrEqual(best + 1e-9);
      }),
    );
  });

  it('refuses a tongue that does not hold', () => {
    expectFault(() => buttonTravel(0.5, 0.4, 0.2), 'range', 'tongue');
  });
});

describe('SWIVEL_SWING', () => {
  // geometry: cos 60° and sin 30° of the radius
  it.each([
    [2, 0.5, 0, 60],
    [2, 0.5, 1, 30],
    [2, 0, 2, 0],
    [2, 0, 0, 90],
  ])('a %d in recess %d in from the face, neck %d in, turns %d°', (recess, edge, neck, angle) => {
    expect(swivelSwing(recess, edge, neck)).toBeCloseTo(angle, 9);
  });

  // At the angle given, the side of the neck runs through the corner of the opening.
  it('ends where the neck meets the corner', () => {
    const size = fc.double({ min: 0.1, max: 2, noNaN: true });
    const share = fc.double({ min: 0.05, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(size, share, share, (radius, toFace, ofOpening) => {
        const edge = toFace * radius;
        const corner = Math.sqrt(radius ** 2 - edge ** 2);
        const half = ofOpening * corner;
        const turn = (swivelSwing(2 * radius, edge, 2 * half) * Math.PI) / 180;
        const aside = corner * Math.cos(turn) - edge * Math.sin(turn);
        expect(aside).toBeCloseTo(half, 9);
      }),
    );
  });

  it('refuses a recess that stays closed and a neck wider than the opening', () => {
    expectFault(() => swivelSwing(1, 0.5, 0.25), 'range', 'edge_distance');
    expectFault(() => swivelSwing(1, 0.4, 0.7), 'range', 'neck_width');
  });
});

describe('the recess', () => {
  it('is as wide as the next bit and a little deeper than the fastener', () => {
    expect(recessDiameter(0.7)).toBe(0.75);
    expect(recessDiameter(0.75)).toBe(0.75);
    expect(recessDiameter(0.7, 1 / 16)).toBe(0.75);
    expect(recessDiameter(0.76, 1 / 16)).toBe(0.8125);
    expect(recessDepth(0.125)).toBe(0.140625);
    expect(recessDepth(0.125, 0)).toBe(0.125);
  });
});
