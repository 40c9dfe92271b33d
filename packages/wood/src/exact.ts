/**
 * Binary fractions carry noise: 42 / (7/3) comes out a hair off 18, and a length converted from
 * millimetres a hair off its inch. A count taken from such a ratio must not be one too many, so
 * ratios are settled to 12 significant digits before they are rounded. All rounding of ours
 * comes through here.
 */
export function settle(value: number): number {
  // Whole numbers are settled; writing numbers out and reading them back is slow.
  if (Number.isInteger(value) && Math.abs(value) < 1e12) return value + 0;
  return Number(value.toPrecision(12));
}

/**
 * Whether a value is so far from the next whole number that settling it cannot bring it there: then
 * nothing has to be written out and read back.
 */
const isFar = (value: number): boolean =>
  Math.abs(value - Math.round(value)) > Math.abs(value) * 1e-11;

/** Least whole number not under the value, noise aside. */
export function ceilSettled(value: number): number {
  return Math.ceil(isFar(value) ? value : settle(value));
}

/** Greatest whole number not over the value, noise aside. */
export function floorSettled(value: number): number {
  return Math.floor(isFar(value) ? value : settle(value));
}

/** Nearest whole number of a value that is not negative; a half goes up. */
export function roundSettled(value: number): number {
  return Math.floor(settle(settle(value) + 0.5));
}
