import { ourFunction, standardFunction } from '@kerfbook/functions';
import { STEPS_OF_OURS } from './described.ts';

/** What a function costs beyond the cells it reads and makes, for each cell and once (rule B2). */
export function extraOf(name: string): readonly [each: number, once: number] {
  const ours = ourFunction(name);
  return ours === undefined
    ? (standardFunction(name)?.weighs ?? [0, 0])
    : [STEPS_OF_OURS, ours.steps ?? 0];
}
