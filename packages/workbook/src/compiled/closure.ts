import type { ErrorWord } from '@kerfbook/document';
import { type Taken, taken } from '@kerfbook/functions/computing';
import type { Frame } from './frame.ts';
import { Failure, SAYS, settled, type Value } from './values.ts';

/** What a part of a formula comes to with the values of cells. */
export type Closure = (frame: Frame) => Value;

export const constant =
  (value: Value): Closure =>
  () =>
    value;

export const wrongCount = (): Failure => new Failure('NA', SAYS.arguments);

/** A function of one value. */
export function ofOne(work: Closure, take: Taken, run: (value: Value) => Value): Closure {
  const wrong = new Failure('VALUE', SAYS.wrongType);
  return (frame) => {
    const fit = taken(work(frame), take);
    if (fit === undefined) return wrong;
    return fit instanceof Failure && take.as !== 'any' ? fit : settled(run(fit));
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
