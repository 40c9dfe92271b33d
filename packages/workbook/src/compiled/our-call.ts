import { type FunctionDescription, ownFromUs, type UnitSystem, usFromOwn } from '@kerfbook/wood';
import { takesCells } from '../results/described.ts';

/**
 * A function of ours as a function of so many numbers in the units of a workbook. It throws, or comes to
 * what is no number, where it has no answer.
 *
 * @returns nothing where it takes words or cells, or no bare number in these units, or another count of arguments
 */
export function ourCall(
  { args, fills, result, run }: FunctionDescription,
  count: number,
  system: UnitSystem,
): ((...numbers: number[]) => unknown) | undefined {
  const given = args.slice(0, count);
  const isFit =
    count > 0 &&
    count <= args.length &&
    fills === undefined &&
    !args.some(takesCells) &&
    given.every(({ takes }) => takes !== 'text') &&
    // A bare number that could be read in two ways is refused with all the care it takes.
    (system === 'us' || given.every(({ notInMetric }) => notInMetric === undefined)) &&
    args.slice(count).every(({ optional }) => optional);
  if (!isFit) return undefined;
  const call = run as (...numbers: number[]) => unknown;
  if (system === 'us') return call;
  return (...numbers) => {
    const answer = call(
      ...numbers.map((value, i) => {
        const quantity = given[i]?.quantity;
        return quantity === undefined ? value : usFromOwn(quantity, value, system);
      }),
    );
    if (typeof answer !== 'number') return undefined;
    return Number(ownFromUs(result.quantity, answer, system).toPrecision(15));
  };
}
