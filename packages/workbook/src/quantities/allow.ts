import type { Allow, Scalar } from '@kerfbook/document';
import { nearestNames, sameWood } from '@kerfbook/wood';
import { near } from './digits.ts';
import { ALLOW_SENTENCES } from './sentences.ts';
import { showNumber, unitShown, withUnit } from './show-value.ts';
import type { ShowContext } from './style.ts';

/**
 * Why a value is not one that its cell allows, as a sentence with numbers in the shown unit;
 * `undefined` when it is allowed. Words are compared without regard to case; a number that differs
 * from a bound by no more than a part in 1e9 is within it.
 */
export function allowProblem(
  value: Scalar,
  allow: Allow,
  context: ShowContext,
): string | undefined {
  if (allow.list !== undefined && !isListed(value, allow, allow.list)) {
    return listProblem(String(value), allow.list);
  }
  return typeof value === 'number' ? numberProblem(value, allow, context) : undefined;
}

function isListed(value: Scalar, { from }: Allow, list: readonly string[]): boolean {
  const word = plain(String(value));
  if (list.some((one) => plain(one) === word)) return true;
  return from === 'woods' && sameWood(word, list) !== undefined;
}

/**
 * A word as the list of a cell has it, where that may be typed by another name: of a list of woods any name of
 * the wood is taken for the one that stands there, so that what looks it up finds it. Else as it is.
 */
export function asListed(value: Scalar, allow: Allow | undefined): Scalar {
  if (typeof value !== 'string' || allow?.list === undefined || allow.from !== 'woods')
    return value;
  return sameWood(value, allow.list) ?? value;
}

/** How many choices of a long list a sentence names. */
const NAMED = 6;

function listProblem(value: string, list: readonly string[]): string {
  const some = list.length > NAMED ? nearestNames(value, nameable(list), NAMED) : list;
  return ALLOW_SENTENCES.list(value, some, list.length - some.length);
}

/** Comparing a word with a choice that is an essay takes long and helps nobody. */
const nameable = (list: readonly string[]) => list.filter((choice) => choice.length <= 60);

const plain = (word: string): string => word.trim().replace(/\s+/g, ' ').toLowerCase();

function numberProblem(
  value: number,
  { whole, min, max }: Allow,
  context: ShowContext,
): string | undefined {
  const number = (one: number): string => {
    const { text, exact } = showNumber(one, context);
    return exact ?? text;
  };
  const unit = unitShown(context);
  const told = (one: number): string => withUnit(number(one), unit);
  if (whole === true && !near(value, Math.round(value))) return ALLOW_SENTENCES.whole(told(value));
  if (!isUnder(value, min) && !isOver(value, max)) return undefined;
  if (min !== undefined && max !== undefined) {
    return ALLOW_SENTENCES.range(told(value), `${number(min)} to ${told(max)}`);
  }
  return min !== undefined
    ? ALLOW_SENTENCES.range(told(value), `${told(min)} or more`)
    : ALLOW_SENTENCES.range(told(value), `${told(max ?? 0)} or less`);
}

const isUnder = (value: number, min: number | undefined): boolean =>
  min !== undefined && value < min && !near(value, min);

const isOver = (value: number, max: number | undefined): boolean =>
  max !== undefined && value > max && !near(value, max);
