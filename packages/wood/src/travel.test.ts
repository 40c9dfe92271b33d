import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectFault } from './testdata/faults.ts';
import {
  buttonTravel,
  recessDepth,
  recessDiameter,
  slotTravel,
  swivelReach,
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

describe('SWIVEL_REACH', () => {
  // geometry, no source: the hole stands at r·cos and r·sin of the angle
  it.each([
    [0.75, 30, 90, 'each', 0.375],
    [0.75, 30, 0, 'out', 0],
    [0.75, 30, 0, 'in', 0.75 * (1 - Math.sqrt(3) / 2)],
    [0.75, 30, 0, 'each', 0],
    [1, 30, 60, 'out', Math.sqrt(3) / 2 - 0.5],
    [1, 30, 60, 'in', 0.5],
    // Turned past the line of the movement it gains nothing more.
    [1, 90, 60, 'out', 0.5],
    [2, 90, 0, 'in', 2],
  ])('holes %d in apart, swing %d°, at %d°: %s %d in', (spacing, swing, angle, way, travel) => {
    expect(swivelReach(spacing, swing, angle, way)).toBeCloseTo(travel, 12);
  });

  it('is what the hole does along the movement, tried at every degree', () => {
    const degrees = fc.integer({ min: 0, max: 90 });
    fc.assert(
      fc.property(degrees, degrees, (swing, angle) => {
        const stands = (turn: number) => Math.cos(((angle + turn) * Math.PI) / 180);
        const at = Array.from({ length: 2 * swing + 1 }, (_, i) => stands(i - swing) - stands(0));
        expect(swivelReach(1, swing, angle, 'out')).toBeCloseTo(Math.max(...at), 9);
        expect(swivelReach(1, swing, angle, 'in')).toBeCloseTo(-Math.min(...at), 9);
      }),
    );
  });

  it('agrees with the two functions for across and in line', () => {
    fc.assert(
      fc.property(thicknesses, fc.double({ min: 0, max: 90, noNaN: true }), (spacing, swing) => {
        expect(2 * swivelReach(spacing, swing, 90)).toBeCloseTo(swivelTravel(spacing, swing), 9);
        const line = swivelTravelInLine(spacing, swing);
        expect(swivelReach(spacing, swing, 0, 'in')).toBeCloseTo(line, 9);
      }),
    );
  });

  it('refuses a way it does not know', () => {
    expectFault(() => swivelReach(1, 30, 90, 'up'), 'unknown', 'way');
  });
});

describe('SLOT_TRAVEL', () => {
  // geometry, no source
  it('is what the slot is longer than the screw is thick', () => {
    expect(slotTravel(0.75, 0.164)).toBeCloseTo(0.586, 12);
    expect(slotTravel(0.164, 0.164)).toBe(0);
    expectFault(() => slotTravel(0.1, 0.164), 'range', 'screw_diameter');
  });
});

describe('BUTTON_TRAVEL', () => {
  // geometry, no source: 5/8 in of tongue, 3/16 in open, so 7/16 in are in the groove
  it('ends at the bottom of the groove', () => {
    expect(buttonTravel(0.625, 0.1875, 0.125, 0.5)).toBeCloseTo(0.125, 12);
    expect(buttonTravel(0.625, 0.1875, 0.125, 0.4375)).toBe(0);
    expect(buttonTravel(0.625, 0.1875, 0.125, 2)).toBeCloseTo(0.375, 12);
    expectFault(() => buttonTravel(0.625, 0.1875, 0.125, 0.4), 'range', 'groove_depth');
  });

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
