import { Failure, type Value } from './values.ts';

/** How a value is looked for. */
export interface Search {
  /** Values are in order, and halves of them are passed over; `none` looks at each. */
  readonly order: 'none' | 'up' | 'down';
  /** What is taken where it is not there: nothing, the next below, the next above. */
  readonly instead: 'nothing' | 'below' | 'above';
  /** Which one is taken where it is there more than once. */
  readonly take?: 'first' | 'last';
}

const NOT_THERE = -1;

/** Words as they are looked for: without capitals and accents. */
export const plain = (value: Value): Value =>
  typeof value === 'string'
    ? value
        .toLowerCase()
        .normalize('NFD')
        .replace(/[\u0300-\u036f]/g, '')
    : value;

const kind = (value: Value): number => {
  if (value === null) return 0;
  if (typeof value === 'number') return 1;
  if (typeof value === 'string') return 2;
  return typeof value === 'boolean' ? 3 : 4;
};

/** Which of two comes first where values are in order: empty cells, numbers, words, yes or no, errors. */
export function inOrder(left: Value, right: Value): number {
  const [a, b] = [kind(left), kind(right)];
  if (a !== b) return a - b;
  if (left === null || right === null || left instanceof Failure) return 0;
  if (left === right) return 0;
  return left < (right as typeof left) ? -1 : left > (right as typeof left) ? 1 : 0;
}

/**
 * The place of a value among others, from 0; -1 where there is none.
 *
 * @param key as `plain` makes it
 * @param isRange values of cells as they stand are looked for by halves where they are in order
 */
export function placeOf(
  key: Value,
  values: readonly Value[],
  search: Search,
  isRange: boolean,
): number {
  if (search.order !== 'none' && isRange) return halved(key, values, search);
  return lookedThrough(key, values, search);
}

/** Places from the first to the last, or the other way round. */
function* placesFrom(count: number, take: 'first' | 'last'): Generator<number> {
  for (let i = 0; i < count; i += 1) yield take === 'first' ? i : count - 1 - i;
}

function lookedThrough(
  key: Value,
  values: readonly Value[],
  { instead, take = 'first' }: Search,
): number {
  const sign = instead === 'above' ? -1 : 1;
  let best: Value = instead === 'above' ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  let place = NOT_THERE;
  for (const i of placesFrom(values.length, take)) {
    const value = plain(values[i] as Value);
    if (value === key) return i;
    if (instead === 'nothing' || value === null) continue;
    if (sign * inOrder(value, key) > 0 || sign * inOrder(best, value) >= 0) continue;
    best = value;
    place = i;
  }
  return place;
}

/** The last of places in order that a test holds for, by halves. */
function lastThat(holds: (place: number) => boolean, count: number): number {
  let [low, high] = [0, count - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (holds(middle)) low = middle;
    else high = middle - 1;
  }
  return low === high && holds(low) ? low : NOT_THERE;
}

/** In values that are in order; empty cells are passed over. */
function halved(key: Value, values: readonly Value[], { order, instead }: Search): number {
  const sign = order === 'up' ? 1 : -1;
  const reached = (value: Value): boolean => sign * inOrder(key, value) >= 0;
  let metEmpty = false;
  let place = lastThat((at) => {
    const value = values[at] as Value;
    if (value === null) metEmpty = true;
    return reached(value);
  }, values.length);
  if (metEmpty) {
    if (instead === 'nothing' && place !== NOT_THERE && values[place] === key) return place;
    const full = values.flatMap((value, i) => (value === null ? [] : i));
    place = lastThat((at) => reached(values[full[at] as number] as Value), full.length);
    if (place !== NOT_THERE) place = full[place] as number;
  }
  const found = place === NOT_THERE ? null : (values[place] as Value);
  if (found === key) return place;
  if (instead === 'nothing') return NOT_THERE;
  const nextFrom = (from: number): number =>
    values.findIndex((one, i) => i >= from && one !== null);
  const ahead = (instead === 'below') === (order === 'up');
  if (place === NOT_THERE) return ahead ? NOT_THERE : nextFrom(0);
  if (kindOf(found) !== kindOf(key)) return NOT_THERE;
  return ahead ? place : nextFrom(place + 1);
}

/** Errors and empty cells are of no kind that is looked for. */
const kindOf = (value: Value): string => (value === null ? 'empty' : typeof value);
