import { type Placement, turnedBack } from './place.ts';
import type { Triple } from './types.ts';
import { degrees, unit } from './vectors.ts';

/** How an end is sawn: the setting of the mitre gauge and of the blade, in degrees. */
export interface EndAngles {
  /** Degrees away from square across the width. */
  readonly mitre: number;
  /** Degrees the blade leans. */
  readonly bevel: number;
}

/**
 * How an end has to be sawn so that, where the piece stands, it lies in a plane of the room.
 * @param placement how the piece is turned
 * @param normal of the plane, away from the piece at that end; any length
 * @param end which end
 * @returns undefined where the plane runs along the piece, so that it never ends there
 */
export function endAngles(
  placement: Placement,
  normal: Triple,
  end: 'start' | 'end',
): EndAngles | undefined {
  const [x, y, z] = unit(turnedBack(placement, normal));
  const along = end === 'end' ? x : -x;
  if (!(along > 1e-9)) return undefined;
  return { mitre: degrees(Math.atan2(y, along)), bevel: degrees(Math.asin(z)) };
}
