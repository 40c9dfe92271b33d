/** Up to a size, so many cup hinges. */
type HingeRow = readonly [most: number, hinges: number];

export const HINGE_SOURCE = 'charts of hardware dealers and an answer of a maker of hinges';

/** By height of the door, in. */
export const HINGES_BY_HEIGHT: readonly HingeRow[] = [
  [40, 2],
  [60, 3],
  [80, 4],
  [85, 5],
];

/** By weight of the door, lb. */
export const HINGES_BY_WEIGHT: readonly HingeRow[] = [
  [13, 2],
  [20, 3],
  [22.5, 4],
  [35, 5],
];
