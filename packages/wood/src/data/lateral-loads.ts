import type { How } from './provenance.ts';

/** From a specific gravity on: lbf that a screw bears across itself, for the square of its diameter in inches. */
type LateralRow = readonly [least: number, load: number, how: How];

export const LATERAL_SOURCE =
  'Wood Handbook (FPL-GTR-190, 2010), chapter 8, lateral resistance of wood screws';

export const LATERAL_NOTE =
  '4/3 of the allowable loads of an engineers’ formula handbook, equation 6.38, read';

/** Seasoned wood, screws 7 diameters deep in side grain; imported woods count as hardwoods. */
export const LATERAL_ROWS: Readonly<Record<'hardwood' | 'softwood', readonly LateralRow[]>> = {
  hardwood: [
    [0.33, 3360, 'memory'],
    [0.48, 4640, 'memory'],
    [0.57, 6400, 'memory'],
  ],
  softwood: [
    [0.29, 3360, 'memory'],
    [0.43, 4320, 'memory'],
    [0.48, 5280, 'memory'],
  ],
};
