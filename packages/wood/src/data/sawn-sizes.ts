import type { Letters } from './provenance.ts';

/** Thickness of sawn timber in metric yards, mm. */
type SawnRow = readonly [thickness: number, how: Letters];

export const SAWN_SOURCE =
  'EN 1313-2 for hardwood, from memory; EN 1313-1 and its national sizes for softwood, from memory; 50, 63, 75 and 100 mm softwood read in a construction handbook’s table of BS EN 336';

/** Sawn at 20 % moisture. */
export const SAWN_ROWS: Readonly<Record<'hardwood' | 'softwood', readonly SawnRow[]>> = {
  hardwood: [
    [20, 'm'],
    [27, 'm'],
    [32, 'm'],
    [40, 'm'],
    [50, 'm'],
    [60, 'm'],
    [65, 'm'],
    [70, 'm'],
    [80, 'm'],
    [100, 'm'],
  ],
  softwood: [
    [16, 'm'],
    [19, 'm'],
    [22, 'm'],
    [25, 'm'],
    [32, 'm'],
    [38, 'm'],
    [44, 'm'],
    [50, 'r'],
    [63, 'r'],
    [75, 'r'],
    [100, 'r'],
  ],
};
