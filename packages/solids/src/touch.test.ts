import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sharedRooms } from './meet.ts';
import { followedBy, leaningBy, movedBy, placed, turnedAbout, UPRIGHT } from './place.ts';
import { type Shape, shaped } from './shape.ts';
import { facesOnto, touching } from './touch.ts';
import type { Solid, Triple } from './types.ts';

function made(shape: Shape): Solid {
  const answer = shaped(shape);
  if (!answer.ok) throw new Error(answer.problem.code);
  return answer.solid;
}

const boxed = (length: number, width: number, thickness: number): Solid =>
  made({ blank: { kind: 'box', length, width, thickness } });
const at = (solid: Solid, ...shift: Triple): Solid => placed(solid, movedBy(shift));

const whole = (ways: readonly Triple[]): string[] =>
  ways.map((way) => way.map((part) => Math.round(part) + 0).join(' ')).sort();

const LEG = boxed(60, 60, 700);
const RAIL: Shape = { blank: { kind: 'box', length: 400, width: 25, thickness: 80 } };
const TENON = made({
  ...RAIL,
  cuts: [{ kind: 'tenon', end: 'start', length: 30, width: 10, thickness: 60 }],
});
const MORTISED = made({
  blank: { kind: 'box', length: 60, width: 60, thickness: 700 },
  cuts: [{ kind: 'mortise', face: 'end', at: [30, 500], length: 10, width: 60, depth: 30 }],
});

describe('pieces that touch', () => {
  it('do so where boxes do, to the gap and no farther', () => {
    const size = fc.integer({ min: 1, max: 20 });
    const place = fc.integer({ min: -25, max: 25 });
    const three = fc.tuple(size, size, size);
    fc.assert(
      fc.property(
        three,
        three,
        fc.tuple(place, place, place),
        fc.constantFrom(0.1, 0.6, 1.5),
        (a, b, shift, gap) => {
          const met = touching(boxed(...a), at(boxed(...b), ...shift), gap);
          const reach = a.map(
            (long, k) => Math.min(long, (shift[k] ?? 0) + (b[k] ?? 0)) - Math.max(0, shift[k] ?? 0),
          );
          expect(met !== undefined).toBe(reach.every((one) => one > -gap));
          for (const k of [0, 1, 2]) {
            if (met === undefined) continue;
            const low = Math.max(0, (shift[k] ?? 0) - gap);
            expect(met.low[k]).toBeCloseTo(low, 9);
          }
        },
      ),
      { numRuns: 500, seed: 1 },
    );
  });

  it('are told from pieces whose boxes meet and that are apart', () => {
    const leg = followedBy(UPRIGHT, leaningBy(12, 0));
    const one = placed(boxed(500, 30, 30), leg);
    const beside = placed(boxed(500, 30, 30), followedBy(leg, movedBy([35, 0, 0])));
    expect(touching(one, beside)).toBeUndefined();
    // 30 mm square to the grain are 30 / cos 12° on the level.
    const level = 30 / Math.cos((12 * Math.PI) / 180);
    const close = placed(boxed(500, 30, 30), followedBy(leg, movedBy([level, 0, 0])));
    expect(touching(one, close)).toBeDefined();
    expect(sharedRooms(one, close).rooms).toEqual([]);
  });

  it('reach past each other at a sharp edge by no more than the gap', () => {
    const wedge = made({
      blank: { kind: 'box', length: 100, width: 20, thickness: 10 },
      cuts: [{ kind: 'end', end: 'end', bevel: 80 }],
    });
    const tip = at(boxed(20, 20, 10), 100.5, 0, 0);
    expect(touching(tip, wedge)).toBeUndefined();
    expect(touching(at(boxed(20, 20, 10), 100.05, 0, 0), wedge)).toBeDefined();
  });
});

describe('the faces on which pieces touch', () => {
  it('are one of a box against a box, seen from either', () => {
    const rail = at(made(RAIL), 60, 10, 400);
    expect(whole(facesOnto(rail, LEG))).toEqual(['-1 0 0']);
    expect(whole(facesOnto(LEG, rail))).toEqual(['1 0 0']);
  });

  it('are the cheeks, shoulders and end of a tenon in its mortise: it comes out one way only', () => {
    const rail = at(TENON, 30, 17.5, 460);
    expect(sharedRooms(rail, MORTISED).rooms).toEqual([]);
    const ways = facesOnto(rail, MORTISED);
    expect([...new Set(whole(ways))]).toEqual(['-1 0 0', '0 -1 0', '0 0 -1', '0 0 1', '0 1 0']);
  });

  it('turn with the pieces', () => {
    const turn = turnedAbout([0, 0, 1], 30);
    const rail = placed(at(made(RAIL), 60, 10, 400), turn);
    const [way] = facesOnto(rail, placed(LEG, turn));
    expect(way?.[0]).toBeCloseTo(-Math.cos(Math.PI / 6), 9);
    expect(way?.[1]).toBeCloseTo(-0.5, 9);
  });

  it('go around a peg in its hole', () => {
    const board = made({
      blank: { kind: 'box', length: 100, width: 100, thickness: 20 },
      cuts: [{ kind: 'hole', face: 'top', at: [50, 50], diameter: 20 }],
    });
    const peg = made({
      blank: { kind: 'prism', outline: { kind: 'disc', diameter: 20 }, through: 60 },
    });
    const ways = facesOnto(at(peg, 40, 40, -10), board);
    const turns = new Set(ways.map(([x, y]) => Math.round(Math.atan2(y, x))));
    expect(turns.size).toBe(7);
    expect(ways.every(([, , z]) => Math.abs(z) < 1e-9)).toBe(true);
  });
});
