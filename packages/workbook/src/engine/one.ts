import { CellError, ErrorType, type HyperFormula, SimpleRangeValue } from 'hyperformula';
import { person } from '../results/sentences.ts';
import { type Around, registerAround } from './around.ts';

/** Stands around a formula that has one answer. */
export const ONE_NAME = 'KERFBOOK_ONE';

/**
 * `KERFBOOK_ONE(formula)`: the formula's value, or an error where it has several. Checks stand in one
 * column of the engine, where the results of one would lie over the next.
 */
const oneAnswer: Around = ({ inner, evaluate }) => {
  const value = evaluate(inner);
  if (!(value instanceof SimpleRangeValue)) return value;
  const [first] = value.data[0] ?? [];
  return value.width() * value.height() === 1 && first !== undefined
    ? first
    : new CellError(ErrorType.VALUE, person('E28'));
};

/** Makes the engine know {@link ONE_NAME}. */
export function registerOne(engine: typeof HyperFormula): void {
  registerAround(engine, ONE_NAME, oneAnswer);
}
