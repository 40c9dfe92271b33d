import { type Cells, cellsOf, STANDARD } from '@kerfbook/functions';
import { type HyperFormula, SimpleRangeValue } from 'hyperformula';
import { BUDGET, spend } from './meter.ts';

const STEPS_OF = Symbol('steps');

type Marked = { [STEPS_OF]?: (...args: unknown[]) => number };

/**
 * Lays what each function costs beside the description of its first argument, which HyperFormula hands
 * along wherever it has made arguments what the function takes.
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
    (first as Marked)[STEPS_OF] = steps as (...args: unknown[]) => number;
  }
}

/**
 * Counts what a function costs for arguments that were made what it takes. Ranges count each time: a
 * function asked for every cell of another range goes through them as often.
 */
export function spendSteps(parameters: readonly object[], args: readonly unknown[]): void {
  if (args.length > BUDGET.values) spend(Number.POSITIVE_INFINITY);
  for (const arg of args) if (arg instanceof SimpleRangeValue) spend(cellsOf(arg satisfies Cells));
  const steps = (parameters[0] as Marked | undefined)?.[STEPS_OF];
  if (steps !== undefined) spend(steps(...args) || 0);
}
