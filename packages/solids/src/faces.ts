import type { Triple } from './types.ts';

/**
 * A face of the box a piece is made from. Its length runs from start to end (x), its width from front to
 * back (y), its thickness from bottom to top (z).
 */
export type Face = 'start' | 'end' | 'front' | 'back' | 'bottom' | 'top';

/** The six faces. */
export const FACES: readonly Face[] = ['start', 'end', 'front', 'back', 'bottom', 'top'];

/** The axis a face is square to: 0 for x, 1 for y, 2 for z. */
export const axisOf = (face: Face): 0 | 1 | 2 =>
  face === 'start' || face === 'end' ? 0 : face === 'front' || face === 'back' ? 1 : 2;

/** Whether a face is at the far end of its axis. */
export const isHigh = (face: Face): boolean => face === 'end' || face === 'back' || face === 'top';

/** Away from the wood. */
export const normalOf = (face: Face): Triple => {
  const away = isHigh(face) ? 1 : -1;
  const axis = axisOf(face);
  return [axis === 0 ? away : 0, axis === 1 ? away : 0, axis === 2 ? away : 0];
};
