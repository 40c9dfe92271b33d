import type { BuyingPlan } from './plan.ts';

/** Pieces alike that remain of a plan once it is cut; mm. */
export interface Offcut {
  /** Its wood, as the stock says it. */
  readonly material: string;
  /** Over 0. */
  readonly thickness: number;
  /** Over 0. */
  readonly width: number;
  /** Over 0. */
  readonly length: number;
  /** How many alike. */
  readonly count: number;
}

/** Shorter or narrower than this nothing is worth its place on a rack, mm: common practice, no source. */
export const SHORTEST_KEPT = 300;

const NEAR = 1e-3;

/**
 * What remains of the boards and sheets of a plan and is worth keeping, each kind once, longest first. Of a board it is
 * what is left at its end, as wide as the board; a strip left beside narrower pieces is not told.
 */
export function offcutsOf({ groups }: BuyingPlan): readonly Offcut[] {
  const found = new Map<string, Offcut>();
  const note = (material: string, thickness: number, width: number, length: number): void => {
    const key = [material, thickness.toFixed(1), width.toFixed(1), length.toFixed(1)].join(' ');
    const count = (found.get(key)?.count ?? 0) + 1;
    found.set(key, { material, thickness, width, length, count });
  };
  for (const { material, boards, panels } of groups) {
    for (const { stock, offcut } of boards) {
      if (offcut > SHORTEST_KEPT - NEAR) note(material, stock.thickness, stock.width, offcut);
    }
    for (const { stock, offcuts } of panels) {
      for (const { length, width } of offcuts) {
        if (Math.min(length, width) > SHORTEST_KEPT - NEAR) {
          note(material, stock.thickness, width, length);
        }
      }
    }
  }
  return [...found.values()].toSorted((one, other) => other.length - one.length);
}
