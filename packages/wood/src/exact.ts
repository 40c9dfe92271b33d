/**
 * Binary fractions carry noise: 42 / (7/3) comes out a hair off 18, and a length converted from
 * millimetres a hair off its inch. A count taken from such a ratio must not be one too many, so
 * ratios are settled to 12 significant digits before they are rounded. All rounding of ours
 * comes through here.
 */
export function settle(value: number): number {
  return Number(value.toPrecision(12));
}

/** Least whole number not under the value, noise aside. */
export function ceilSettled(value: number): number {
  return Math.ceil(settle(value));
}

/** Greatest whole number not over the value, noise aside. */
export function floorSettled(value: number): number {
  return Math.floor(settle(value));
}

/** Nearest whole number of a value that is not negative; a half goes up. */
export function roundSettled(value: number): number {
  return Math.floor(settle(settle(value) + 0.5));
}
