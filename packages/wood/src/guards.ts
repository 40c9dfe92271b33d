import type { ArgumentDescription, RangeArgument } from './describe.ts';
import { settle } from './exact.ts';
import { Fault } from './fault.ts';
import type { Quantity } from './quantity.ts';

/** What a guard needs of an argument's description: the name and unit its sentence speaks in. */
export type Guarded = Pick<ArgumentDescription, 'name' | 'quantity'>;

/**
 * The largest numbers a shop could mean, us units. Beyond them a cell holds a slip of the keys, and
 * products of such numbers would run out of the range of numbers altogether.
 */
const MOST: Partial<Record<Quantity, number>> = {
  length: 1e6,
  area: 1e10,
  volume: 1e12,
  count: 1e6,
  pressure: 1e7,
  force: 1e9,
  mass: 1e9,
  load_per_length: 1e6,
  coverage: 1e6,
};

const MOST_OTHERWISE = 1e9;

export function mostOf(quantity: Quantity): number {
  return MOST[quantity] ?? MOST_OTHERWISE;
}

/** Bounds hold to within conversion noise: 30 °F reached by way of °C is still 30 °F. */
const SLACK = 1e-9;
const under = (value: number, bound: number): boolean => value < bound - SLACK * Math.abs(bound);
const over = (value: number, bound: number): boolean => value > bound + SLACK * Math.abs(bound);

function refuse(
  argument: Guarded,
  got: unknown,
  takes: string,
  bounds: readonly number[],
  hint?: string,
): never {
  throw new Fault({
    class: 'range',
    argument: argument.name,
    got,
    quantity: argument.quantity,
    takes,
    bounds,
    ...(hint === undefined ? {} : { hint }),
  });
}

/** Any number that can be used. Throws a `kind` fault when missing, not a number, or not finite. */
export function someNumber(argument: Guarded, value: unknown): number {
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  throw new Fault({
    class: 'kind',
    argument: argument.name,
    got: typeof value === 'boolean' ? String(value).toUpperCase() : value,
    quantity: argument.quantity,
    takes: 'a number',
  });
}

/** A number from `least` to `most`, both included. */
export function between(
  argument: Guarded,
  value: unknown,
  least: number,
  most: number,
  hint?: string,
): number {
  const given = someNumber(argument, value);
  if (under(given, least) || over(given, most))
    refuse(argument, given, '{n} to {n}', [least, most], hint);
  return given;
}

/** More than nothing. */
export function positive(argument: Guarded, value: unknown): number {
  const given = someNumber(argument, value);
  if (given <= 0) refuse(argument, given, 'more than {n}', [0]);
  if (over(given, mostOf(argument.quantity)))
    refuse(argument, given, '{n} at the most', [mostOf(argument.quantity)]);
  return given;
}

/** Nothing or more. */
export function notNegative(argument: Guarded, value: unknown): number {
  const given = someNumber(argument, value);
  if (given < 0) refuse(argument, given, '{n} or more', [0]);
  if (over(given, mostOf(argument.quantity)))
    refuse(argument, given, '{n} at the most', [mostOf(argument.quantity)]);
  return given;
}

/** More than nothing, and no more than `most`. */
export function upTo(argument: Guarded, value: unknown, most: number, hint?: string): number {
  const given = positive(argument, value);
  if (over(given, most)) refuse(argument, given, '{n} at the most', [most], hint);
  return given;
}

/** `least` or more. */
export function atLeast(argument: Guarded, value: unknown, least: number, hint?: string): number {
  const given = someNumber(argument, value);
  if (under(given, least)) refuse(argument, given, '{n} or more', [least], hint);
  return positive(argument, given);
}

/** A size that may be a difference, so of either sign. */
export function eitherSign(argument: Guarded, value: unknown): number {
  const most = mostOf(argument.quantity);
  return between(argument, value, -most, most);
}

/** A whole number from `least` up; noise such as 6.9999999999999 counts as 7. */
export function whole(argument: Guarded, value: unknown, least: number, most?: number): number {
  const given = settle(someNumber(argument, value));
  const limit = most ?? mostOf(argument.quantity);
  if (!Number.isInteger(given)) refuse(argument, given, 'a whole number', []);
  if (given < least || given > limit)
    refuse(argument, given, 'a whole number from {n} to {n}', [least, limit]);
  return given;
}

/** Cells of a range, at least one of them filled. Throws a `kind` fault where it is missing or all empty. */
export function cells(argument: Guarded, value: unknown): RangeArgument {
  const given: RangeArgument = Array.isArray(value) ? value : [value];
  if (given.every((cell) => cell === undefined || cell === null)) someNumber(argument, undefined);
  return given;
}

/** Words, with the spaces around them off. Throws a `kind` fault when missing or not text. */
export function words(argument: Guarded, value: unknown, takes: string): string {
  const text = typeof value === 'string' ? value.trim() : value;
  if (typeof text === 'string' && text !== '') return text;
  throw new Fault({
    class: 'kind',
    argument: argument.name,
    got: text === '' ? undefined : typeof text === 'boolean' ? String(text).toUpperCase() : text,
    quantity: argument.quantity,
    takes,
  });
}

/** One of a few words, whatever its case. Throws a `kind` fault when missing, `unknown` for another word. */
export function oneOf<Word extends string>(
  argument: Guarded,
  value: unknown,
  known: readonly Word[],
): Word {
  const takes = known.map((word) => `"${word}"`).join(' or ');
  const given = words(argument, value, takes);
  const found = known.find((word) => word === given.toLowerCase());
  if (found !== undefined) return found;
  throw new Fault({
    class: 'unknown',
    argument: argument.name,
    got: given,
    quantity: 'text',
    takes,
  });
}

/** A part taken off a size, once or at both ends. */
interface TakenOff {
  readonly argument: Guarded;
  readonly value: number;
  readonly times: number;
}

/**
 * What a size leaves once its parts are taken off. When that is nothing, the part that takes the
 * most is named, with the size it would have to stay under.
 */
export function leftOver(size: number, parts: readonly TakenOff[], so: string): number {
  const left = parts.reduce((rest, { value, times }) => rest - times * value, size);
  if (left > SLACK) return left;
  const taken = ({ value, times }: TakenOff): number => value * times;
  const most = parts.reduce((a, b) => (taken(b) > taken(a) ? b : a));
  const limit = settle(most.value + left / most.times);
  if (limit > 0) refuse(most.argument, most.value, `less than {n} so that ${so}`, [limit]);
  return refuse(most.argument, most.value, `a smaller size so that ${so}`, []);
}

/** A count worked out from a ratio: refused when no shop could mean it. */
export function sensibleCount(count: number, argument: Guarded, got: number, of: string): number {
  // Adding nothing turns a negative zero, which rounding up can give, into plain zero.
  if (count <= mostOf('count')) return count + 0;
  return refuse(argument, got, `a size that makes ${mostOf('count')} ${of} or fewer`, []);
}
