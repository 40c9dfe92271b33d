import { cellsOf, STANDARD, type Steps } from '@kerfbook/functions';
import { type HyperFormula, SimpleRangeValue } from 'hyperformula';
import { BUDGET, spend } from '../results/meter.ts';

/** What functions cost, by the description of their first argument. */
const STEPS_OF = new WeakMap<object, Steps>();

/**
 * Notes what each function costs by the description of its first argument, which HyperFormula hands along
 * wherever it has made arguments what the function takes.
 *
 * @throws an Error where a function is not there any more
 */
export function markSteps(engine: typeof HyperFormula): void {
  for (const { name, steps } of STANDARD) {
    if (steps === undefined) continue;
    const plugin = engine.getFunctionPlugin(name);
    const about = plugin?.implementedFunctions[plugin.aliases?.[name] ?? name];
    const first = about?.parameters?.[0];
    if (first === undefined) {
      throw new Error(`this version of HyperFormula has no ${name}: see functions/src/standard.ts`);
    }
    STEPS_OF.set(first, steps);
  }
}

/**
 * Counts what a function costs for arguments that were made what it takes. Ranges count each time: a
 * function asked for every cell of another range goes through them as often.
 */
export function spendSteps(parameters: readonly object[], args: readonly unknown[]): void {
  if (args.length > BUDGET.values) spend(Number.POSITIVE_INFINITY);
  for (const arg of args) if (arg instanceof SimpleRangeValue) spend(cellsOf(arg));
  const [first] = parameters;
  const steps = first === undefined ? undefined : STEPS_OF.get(first);
  if (steps !== undefined) spend(steps(...args) || 0);
}
