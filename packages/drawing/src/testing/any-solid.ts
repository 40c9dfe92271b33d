import type { Solid } from '@kerfbook/solids';
import fc from 'fast-check';
import { box, leg, pocketed, round, turned } from './solids.ts';

/** A box, a tapered leg, round stuff or a board with a pocket, turned by such angles and moved by such ways along x, y and z. */
export const anySolid = (
  angle: fc.Arbitrary<number>,
  place: fc.Arbitrary<number>,
): fc.Arbitrary<Solid> =>
  fc
    .tuple(
      fc.integer({ min: 0, max: 3 }),
      fc
        .tuple(fc.tuple(angle, angle, angle), fc.tuple(place, place, place))
        .map(([turn, by]) => turned(turn, by)),
    )
    .map(
      ([kind, put]): Solid =>
        [
          box([0, 0, 0, 40, 30, 20], put),
          leg(20, 10, 60, [3, -2], put),
          round(9, 14, 50, put, 0.8),
          pocketed([40, 40, 60], [10, 20, 20, 20, 25], put),
        ][kind] as Solid,
    );
