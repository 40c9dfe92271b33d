import {
  type FunctionDescription,
  ownFromUs,
  type Quantity,
  type UnitSystem,
  usFromOwn,
} from '@kerfbook/wood';
import { takesCells } from '../results/described.ts';
import type { Closure } from './closure.ts';
import type { Frame } from './frame.ts';
import type { Many } from './many.ts';
import { finished, type Value } from './values.ts';

/**
 * A call of ours whose arguments are all there and of the right kind: most are. Comes to nothing where
 * they are not, or where there is no answer; then the call is made with all the care it takes.
 */
export function quickCall(
  { args, run, result: { quantity } }: FunctionDescription,
  works: readonly Closure[],
  system: UnitSystem,
): ((frame: Frame) => Value | undefined) | undefined {
  if (works.length > args.length || args.some(takesCells)) return undefined;
  if (args.slice(works.length).some(({ optional }) => !optional)) return undefined;
  const call = run as (...given: (number | string)[]) => unknown;
  const numbers = args.map(
    ({ takes, notInMetric }) => takes !== 'text' && (system === 'us' || notInMetric === undefined),
  );
  const words = args.map(({ takes }) => takes !== 'number');
  const kinds = args.map((argument) => argument.quantity);
  return (frame) => {
    const given = new Array<number | string>(works.length);
    for (let i = 0; i < works.length; i += 1) {
      const value = (works[i] as Closure)(frame);
      if (typeof value === 'number' && numbers[i]) {
        given[i] = system === 'us' ? value : usFromOwn(kinds[i] as Quantity, value, system);
      } else if (typeof value === 'string' && words[i]) given[i] = value;
      else return undefined;
    }
    let answer: unknown;
    try {
      answer = call(...given);
    } catch {
      return undefined;
    }
    if (typeof answer === 'string') return answer;
    if (typeof answer !== 'number') return undefined;
    const own = ownFromUs(quantity, answer, system);
    const told = system === 'us' ? own : Number(own.toPrecision(15));
    return Number.isFinite(told) ? finished(told) : undefined;
  };
}

/** A call as it is made first, and as it is made where that comes to nothing. */
export const quickOr =
  (quick: (frame: Frame) => Value | undefined, careful: Many): Many =>
  (frame) =>
    quick(frame) ?? careful(frame);
