import type { ErrorWord } from '@kerfbook/document';
import { type Taken, taken } from '@kerfbook/functions/computing';
import type { Frame } from './frame.ts';
import { Failure, SAYS, settled, toLogical, type Value } from './values.ts';

/** What a part of a formula comes to with the values of cells. */
export type Closure = (frame: Frame) => Value;

export const constant =
  (value: Value): Closure =>
  () =>
    value;

export const wrongCount = (): Failure => new Failure('NA', SAYS.arguments);

const WRONG = new Failure('VALUE', SAYS.wrongType);

/** A function of one value. */
export function ofOne(work: Closure, take: Taken, run: (value: Value) => Value): Closure {
  return (frame) => {
    const fit = taken(work(frame), take);
    if (fit === undefined) return WRONG;
    return fit instanceof Failure && take.as !== 'any' ? fit : settled(run(fit));
  };
}

/** A function of single values, each as it is taken; nothing where one is left out. */
export function ofSingles(
  works: readonly (Closure | undefined)[],
  takes: readonly Taken[],
  run: (...values: (Value | undefined)[]) => Value,
  spends: ((given: readonly unknown[]) => void) | undefined,
): Closure {
  return (frame) => {
    // All are worked out before any is looked at: one of them may cost too much.
    const given = takes.map((take, i) => (works[i] === undefined ? take.leftOut : works[i](frame)));
    for (const [i, take] of takes.entries()) {
      const value = given[i];
      if (value === undefined) continue;
      const fit = taken(value, take);
      if (fit === undefined) return WRONG;
      if (fit instanceof Failure && take.as !== 'any') return fit;
      given[i] = fit;
    }
    spends?.(given);
    return settled(run(...given));
  };
}

/** One of two parts by a condition. */
export function chosen(condition: Closure, then: Closure, otherwise: Closure): Closure {
  return (frame) => {
    const value = condition(frame);
    const holds = typeof value === 'boolean' ? value : toLogical(value);
    if (holds === true) return then(frame);
    if (holds === false) return otherwise(frame);
    return holds ?? WRONG;
  };
}

/** The kinds of error that are written in formulas. */
export const ERRORS: Readonly<Record<ErrorWord, string>> = {
  '#DIV/0!': 'DIV_BY_ZERO',
  '#NAME?': 'NAME',
  '#VALUE!': 'VALUE',
  '#NUM!': 'NUM',
  '#N/A': 'NA',
  '#CYCLE!': 'CYCLE',
  '#REF!': 'REF',
  '#SPILL!': 'SPILL',
  '#ERROR!': 'ERROR',
};
