/** How curves are told by flat facets. */
export interface Faceting {
  /** How far a facet may lie from the curve it stands for, mm. */
  readonly tolerance: number;
  /** The most facets a full turn is given, whatever its size: a multiple of 4. */
  readonly most: number;
}

/** What curves are told by where nothing else is asked for. */
export const USUAL_FACETING: Faceting = { tolerance: 0.05, most: 240 };

const LEAST_IN_QUARTER = 3;

/** How many facets an arc (radius in mm, turn in radians) is given: within the tolerance, or the most there may be. */
export function facetsOfArc(radius: number, turn: number, { tolerance, most }: Faceting): number {
  const quarters = turn / (Math.PI / 2);
  const least = Math.ceil(LEAST_IN_QUARTER * quarters - 1e-9);
  const step = tolerance >= radius ? Math.PI : 2 * Math.acos(1 - tolerance / radius);
  const wanted = Math.ceil(turn / step - 1e-9);
  return Math.max(1, least, Math.min(wanted, Math.floor((most / 4) * quarters + 1e-9)));
}
