import type { Format } from '../units.ts';
import type { CutItem } from './cut-list.ts';

/** Nearer than this two sizes are one, mm. */
const SAME = 1e-3;

/**
 * What is left to do to a square piece, such as a leg, that comes from a thicker board: a plan rips it to its width
 * alone. What is no wider than a saw cut comes off with a plane.
 * @param from thickness of the board, mm
 * @param kerf width of a saw cut, mm
 * @returns nothing for a piece that is as thick as its board, or flat: boards are planed before they are cut
 */
export function secondRip(
  { thickness, width }: Pick<CutItem, 'thickness' | 'width'>,
  from: number,
  kerf: number,
  format: Format,
): string | undefined {
  const off = from - thickness;
  if (off <= SAME || Math.abs(width - thickness) > SAME) return undefined;
  return `turn it a quarter and ${off < kerf - SAME ? 'plane' : 'rip'} to ${format(thickness)}`;
}
