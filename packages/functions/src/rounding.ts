/**
 * Rounding that agrees with what a cell shows. A binary float such as 0.3/0.1 = 2.9999999999999996
 * shows as 3; rounded down it must stay 3, or one screw is missing. Every function here first snaps
 * its ratio to 15 significant digits, the precision of a double.
 */

/** The nearest number of 15 significant digits. */
export function snap(value: number): number {
  // Whole numbers have no digits to lose; writing numbers out and reading them back is slow.
  if (Number.isInteger(value) && Math.abs(value) < 1e15) return value + 0;
  return Number(value.toPrecision(15));
}

type Whole = (value: number) => number;

const away: Whole = (value) => (value < 0 ? -Math.ceil(-value) : Math.ceil(value));
const toward: Whole = (value) => Math.trunc(value);
const half: Whole = (value) => (value < 0 ? -Math.round(-value) : Math.round(value));

/** Past this many places a power of ten is no exact number. */
const MOST_PLACES = 22;

function atPlaces(value: number, places: number, whole: Whole): number {
  const digits = Math.trunc(places);
  const scale = 10 ** Math.abs(digits);
  const scaled = digits < 0 ? value / scale : value * scale;
  // Past this size every number is whole already, and scaling could only lose digits.
  if (!Number.isFinite(scaled) || Math.abs(scaled) >= 2 ** 53) return digits < 0 ? 0 : value;
  const rounded = whole(snap(scaled));
  return snap(digits < 0 ? rounded * scale : rounded / scale) + 0;
}

/**
 * Up or down. Away from whole numbers the digits behind do not matter; then nothing has to be written out and
 * read back, as where a number is rounded to the nearest.
 */
function upOrDown(value: number, places: number, whole: Whole): number {
  const scale = places >= 0 && places <= MOST_PLACES ? 10 ** Math.trunc(places) : 0;
  const scaled = value * scale;
  const size = Math.abs(scaled);
  const plain = scale !== 0 && size < 1e15 && Math.abs(scaled - Math.round(scaled)) > size * 1e-14;
  return plain ? whole(scaled) / scale + 0 : atPlaces(value, places, whole);
}

/**
 * To so many places, a half away from zero. Away from halves the digits behind do not matter, and a
 * whole number of at most 15 digits over a power of ten is the nearest number of that text already: then
 * nothing has to be written out and read back.
 */
export function round(value: number, places: number): number {
  const scale = places >= 0 && places <= MOST_PLACES ? 10 ** Math.trunc(places) : 0;
  const scaled = Math.abs(value * scale);
  const plain = scale !== 0 && scaled < 1e15 && Math.abs((scaled % 1) - 0.5) > scaled * 1e-14;
  if (!plain) return atPlaces(value, places, half);
  const rounded = Math.round(scaled) / scale;
  return rounded === 0 || value > 0 ? rounded : -rounded;
}

/** The same by the long way. */
export const roundSlowly = (value: number, places: number): number => atPlaces(value, places, half);
export const roundUp = (value: number, places: number): number => upOrDown(value, places, away);
export const roundDown = (value: number, places: number): number => upOrDown(value, places, toward);
export const roundUpSlowly = (value: number, places: number): number =>
  atPlaces(value, places, away);
export const roundDownSlowly = (value: number, places: number): number =>
  atPlaces(value, places, toward);

export const int = (value: number): number => Math.floor(snap(value));

/** Multiples of `step` at or above, at or below and nearest to `value`. */
export const multipleAbove = (value: number, step: number): number =>
  snap(Math.ceil(snap(value / step)) * step);
export const multipleBelow = (value: number, step: number): number =>
  snap(Math.floor(snap(value / step)) * step);
export const multipleNearest = (value: number, step: number): number =>
  snap(half(snap(value / step)) * step);

export const quotient = (value: number, by: number): number => Math.trunc(snap(value / by)) + 0;

/** What is left of `value` after whole `by`s, with the sign of `by`; 0 where the ratio is whole. */
export function mod(value: number, by: number): number {
  const ratio = snap(value / by);
  if (Number.isInteger(ratio) && Math.abs(ratio) < 2 ** 53) return 0;
  const left = value % by;
  return left !== 0 && left < 0 !== by < 0 ? left + by : left;
}
