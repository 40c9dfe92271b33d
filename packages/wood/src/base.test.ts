import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apronLength,
  fenceStop,
  groovePasses,
  kneeRoom,
  railBetween,
  seatsAlong,
  supportCount,
} from './base.ts';
import { expectFault } from './testdata/faults.ts';

const large = fc.double({ min: 30, max: 200, noNaN: true });
const small = fc.double({ min: 0, max: 6, noNaN: true });
const thin = fc.double({ min: 0.5, max: 4, noNaN: true });

describe('APRON_LENGTH', () => {
  // size − 2 overhang − 2 leg + 2 tenon: common practice, no source
  it.each([
    [84, 6, 3.5, 0, 65],
    [84, 6, 3.5, 1, 67],
    [42, 3, 3.5, 1.25, 31.5],
    [72, 0, 3, 0, 66],
  ])('%d in top, %d over, %d leg, %d tenon: %d', (size, overhang, leg, tenon, answer) => {
    expect(apronLength(size, overhang, leg, tenon)).toBeCloseTo(answer, 12);
  });

  it('puts the table together again', () => {
    fc.assert(
      fc.property(large, small, thin, small, (size, overhang, leg, tenon) => {
        const between = apronLength(size, overhang, leg, tenon) - 2 * tenon;
        expect(overhang + leg + between + leg + overhang).toBeCloseTo(size, 9);
      }),
    );
  });

  it('refuses a table with no room between its legs, whatever the tenons', () => {
    expectFault(() => apronLength(84, 60, 3.5), 'range', 'overhang');
    expectFault(() => apronLength(84, 1, 60), 'range', 'leg');
    expectFault(() => apronLength(20, 6.5, 3.5, 2), 'range', 'overhang');
    expectFault(() => apronLength(84, -1, 3.5), 'range', 'overhang');
  });
});

describe('RAIL_BETWEEN', () => {
  it('is what the aprons leave', () => {
    // common practice, no source: 42 − 2 (3 + 0.5 + 1.5)
    expect(railBetween(42, 3, 0.5, 1.5)).toBe(32);
    fc.assert(
      fc.property(large, small, small, thin, (size, overhang, setback, thick) => {
        fc.pre(size > 2 * (overhang + setback + thick) + 0.01);
        const rail = railBetween(size, overhang, setback, thick);
        expect(rail + 2 * (overhang + setback + thick)).toBeCloseTo(size, 9);
      }),
    );
  });

  it('refuses aprons that meet', () => {
    expectFault(() => railBetween(10, 3, 0.5, 1.5), 'range', 'overhang');
    expectFault(() => railBetween(10, 1, 0.5, 5), 'range', 'apron_thickness');
  });
});

describe('KNEE_ROOM', () => {
  it('is what the top and the apron leave above the floor', () => {
    // common practice, no source
    expect(kneeRoom(30, 1.75, 3.5)).toBe(24.75);
    fc.assert(
      fc.property(large, thin, thin, (height, top, apron) => {
        expect(kneeRoom(height, top, apron) + top + apron).toBeCloseTo(height, 9);
      }),
    );
  });

  it('refuses an apron that reaches the floor', () => {
    expectFault(() => kneeRoom(30, 1.75, 29), 'range', 'apron_width');
  });
});

describe('SEATS_ALONG', () => {
  it.each([
    [84, 24, 6, 3],
    [84, 24, 0, 3],
    [96, 24, 0, 4],
    [72, 24, 12, 2],
    [20, 24, 0, 0],
    [24, 24, 12, 0],
    [7, 7 / 3, 0, 3],
  ])('%d in at %d in, %d in lost: %i', (length, perSeat, lost, seats) => {
    expect(seatsAlong(length, perSeat, lost)).toBe(seats);
  });

  it('never seats fewer at a longer table', () => {
    fc.assert(
      fc.property(large, small, thin, (length, more, lost) => {
        expect(seatsAlong(length + more, 24, lost)).toBeGreaterThanOrEqual(
          seatsAlong(length, 24, lost),
        );
      }),
    );
  });

  it('refuses ends that take more than the whole side', () => {
    expectFault(() => seatsAlong(48, 24, 25), 'range', 'lost_each_end');
  });
});

describe('SUPPORT_COUNT', () => {
  it.each([
    [66, 24, 2],
    [72, 24, 2],
    [73, 24, 3],
    [20, 24, 0],
    [7, 7 / 3, 2],
  ])('%d in with gaps up to %d in: %i', (span, gap, count) => {
    expect(supportCount(span, gap)).toBe(count);
  });

  it('leaves no gap wider than asked, and would with one support less', () => {
    fc.assert(
      fc.property(large, fc.double({ min: 2, max: 40, noNaN: true }), (span, gap) => {
        const count = supportCount(span, gap);
        expect(span / (count + 1)).toBeLessThanOrEqual(gap * (1 + 1e-11));
        if (count > 0) expect(span / count).toBeGreaterThan(gap);
      }),
    );
  });
});

describe('groove settings', () => {
  it.each([
    [0.375, 0.125, 3],
    [0.25, 0.125, 2],
    [0.3, 0.125, 3],
    [0.125, 0.125, 1],
    [9.525 / 25.4, 3.175 / 25.4, 3],
  ])('a groove of %d in with a kerf of %d in takes %i passes', (groove, kerf, passes) => {
    expect(groovePasses(groove, kerf)).toBe(passes);
  });

  // geometry: passes side by side cover the groove and nothing else
  it('cut exactly the groove: from its near edge to its far edge, with no ridge between', () => {
    fc.assert(
      fc.property(
        small,
        fc.double({ min: 0.2, max: 2, noNaN: true }),
        fc.double({ min: 0.05, max: 0.2, noNaN: true }),
        (edge, groove, kerf) => {
          const passes = groovePasses(groove, kerf);
          const stops = Array.from({ length: passes }, (_, i) =>
            fenceStop(edge, groove, kerf, i + 1),
          );
          expect(stops[0]).toBeCloseTo(edge, 12);
          expect((stops.at(-1) ?? 0) + kerf).toBeCloseTo(edge + groove, 9);
          stops.slice(1).forEach((stop, i) => {
            expect(stop - (stops[i] ?? 0)).toBeLessThanOrEqual(kerf + 1e-9);
          });
        },
      ),
    );
  });

  it('stay at the last setting beyond the last pass', () => {
    expect(fenceStop(0.5, 0.375, 0.125, 4)).toBe(fenceStop(0.5, 0.375, 0.125, 3));
  });

  it('refuse a blade wider than the groove, and a pass that is none', () => {
    expectFault(() => groovePasses(0.1, 0.125), 'range', 'kerf');
    expectFault(() => fenceStop(0.5, 0.1, 0.125, 1), 'range', 'kerf');
    expectFault(() => fenceStop(0.5, 0.375, 0.125, 0), 'range', 'pass');
    expectFault(() => fenceStop(0.5, 0.375, 0.125, 1.5), 'range', 'pass');
  });
});
