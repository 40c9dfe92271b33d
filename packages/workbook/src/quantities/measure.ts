import type { Quantity, UnitSystem } from '@kerfbook/wood';
import { scanNumber, scanSign } from './numbers.ts';
import { bridge, inSystem, type Unit, unitAt } from './units.ts';

/** A number with its unit, or several that add up: `5' 6-3/8"`, `1 h 30 min`, `2.4 m`. */
export interface Measured {
  /** In the workbook's own unit; infinite where that is too large a number. */
  readonly value: number;
  readonly unit: Unit;
  /** Of the last term, where that is a fraction. */
  readonly denominator?: number;
}

interface Term {
  readonly value: number;
  readonly denominator?: number;
  readonly unit: Unit;
  readonly end: number;
  /** The unit was a word, not a prime: `5 ft`, not `5'`. */
  readonly word: boolean;
}

/** Reads plain text as a number with a unit of the quantity; `undefined` when it is none. */
export function readMeasured(
  plain: string,
  quantity: Quantity,
  system: UnitSystem,
): Measured | undefined {
  const { negative, start } = scanSign(plain);
  let at = start;
  let total = 0;
  let last: Term | undefined;
  while (last === undefined || at < plain.length) {
    const term = nextTerm(plain, at, quantity, last);
    if (term === undefined) return undefined;
    total += inSystem(term.value, term.unit);
    last = term;
    at = afterGap(plain, term.end);
  }
  const own = bridge(negative ? -total : total, last.unit, quantity, system) + 0;
  return {
    value: own,
    unit: last.unit,
    ...(last.denominator === undefined ? {} : { denominator: last.denominator }),
  };
}

/** Between terms may stand a space, a hyphen or both: `5'-6"`, `5' - 6"`. */
function afterGap(text: string, end: number): number {
  const gap = /^(?: ?- ?| )(?=[\d.])/.exec(text.slice(end, end + 4));
  return end + (gap?.[0].length ?? 0);
}

function nextTerm(
  text: string,
  at: number,
  quantity: Quantity,
  before: Term | undefined,
): Term | undefined {
  const scanned = scanNumber(text, at);
  if (scanned.kind !== 'number') return undefined;
  const { number, end } = scanned;
  const found = unitAt(text, text[end] === ' ' ? end + 1 : end, quantity);
  if (found === undefined) return bareInches(text, at, scanned, before);
  const { unit, word } = found;
  if (before !== undefined && !follows(unit, before.unit)) return undefined;
  return { ...number, unit, end: found.end, word: /[a-z]/i.test(word) };
}

/** Terms are of one system and go from large to small: `6" 5'` and `5' 20 mm` are slips. */
function follows(unit: Unit, before: Unit): boolean {
  return unit.system === before.system && unit.over * before.under < before.over * unit.under;
}

/** `5' 6`: after feet, inches need no mark; but `5 ft2` is an area and `1'250` is no length. */
function bareInches(
  text: string,
  at: number,
  { number, end }: Extract<ReturnType<typeof scanNumber>, { kind: 'number' }>,
  before: Term | undefined,
): Term | undefined {
  if (before?.unit.sign !== 'ft' || end !== text.length || number.value >= 12) return undefined;
  if (before.word && at === before.end) return undefined;
  const inch = unitAt('"', 0, 'length')?.unit;
  return inch === undefined ? undefined : { ...number, unit: inch, end, word: false };
}
