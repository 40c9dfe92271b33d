import { dayNumber, isDay } from './calendar.ts';
import { comparedNumbers, numberIn, type Value } from './values.ts';
import { Wildcards } from './wildcards.ts';

/** Whether a value meets a condition. */
export type Meets = (value: Value) => boolean;

const SIGNED = /([<>=]+)(.*)/;
type Sign = '>' | '>=' | '<' | '<=' | '<>' | '=';
const SIGNS: ReadonlySet<string> = new Set<Sign>(['>', '>=', '<', '<=', '<>', '=']);
const isSign = (sign: string): sign is Sign => SIGNS.has(sign);

/** A day, year first (ISO 8601), behind the sign of a condition. */
const DATED = /^([<>=]*)\s*(\d{4})-(\d{1,2})-(\d{1,2})\s*$/;

/** A condition on a day, `">=2026-03-14"`, as one on the number that the day is; any other as it is. */
export function withDayCounted<T>(condition: T | string): T | string {
  const found = typeof condition === 'string' ? DATED.exec(condition) : null;
  if (found === null) return condition;
  const [year = 0, month = 0, day = 0] = found.slice(2).map(Number);
  const one = { year, month, day };
  return isDay(one) ? `${found[1] ?? ''}${dayNumber(one)}` : condition;
}

/**
 * What a condition such as `5`, `"oak"` or `">=5"` asks of a value; nothing where it is none.
 *
 * @param spend counts steps of words with `*` and `?`
 */
export function conditionOf(asked: Value, spend: (steps: number) => void): Meets | undefined {
  const given = withDayCounted(asked);
  if (typeof given === 'number') return ofNumber('=', given);
  if (typeof given === 'boolean') return ofLogical('=', given);
  if (typeof given !== 'string') return undefined;
  const [, sign = '=', words = given] = SIGNED.exec(given) ?? [];
  if (!isSign(sign)) return undefined;
  if (words === '') return ofNothing(sign);
  const number = numberIn(words);
  if (number !== undefined) return ofNumber(sign, number);
  if (sign !== '=' && sign !== '<>') return undefined;
  const word = words.toLowerCase();
  if (word === 'true' || word === 'false') return ofLogical(sign, word === 'true');
  return ofWords(sign, words, spend);
}

const ORDER: Readonly<Record<Exclude<Sign, '=' | '<>'>, (order: number) => boolean>> = {
  '>': (order) => order > 0,
  '>=': (order) => order >= 0,
  '<': (order) => order < 0,
  '<=': (order) => order <= 0,
};

/** A number, or words that are one. */
function ofNumber(sign: Sign, wanted: number): Meets {
  if (sign !== '=' && sign !== '<>') {
    const holds = ORDER[sign];
    return (value) => typeof value === 'number' && holds(comparedNumbers(value, wanted));
  }
  const is: Meets = (value) => {
    if (typeof value === 'number') return comparedNumbers(value, wanted) === 0;
    if (typeof value !== 'string' || value === '') return false;
    const number = numberIn(value);
    return number !== undefined && comparedNumbers(number, wanted) === 0;
  };
  return sign === '=' ? is : (value) => !is(value);
}

function ofLogical(sign: Sign, wanted: boolean): Meets {
  if (sign === '=') return (value) => value === wanted;
  return sign === '<>' ? (value) => value !== wanted : () => false;
}

function ofNothing(sign: Sign): Meets {
  if (sign === '=') return (value) => value === null;
  return sign === '<>' ? (value) => value !== null : () => false;
}

/** Words, whatever their capitals. */
export function ofWords(sign: '=' | '<>', words: string, spend: (steps: number) => void): Meets {
  const pattern = new Wildcards(words.toLowerCase(), true, spend);
  const is: Meets = (value) => typeof value === 'string' && pattern.test(value.toLowerCase());
  return sign === '=' ? is : (value) => !is(value);
}
