import { STANDARD_PAGES } from '@kerfbook/functions';
import type { UnitSystem } from '@kerfbook/wood';
import { type FunctionPage, functionPages } from './pages.ts';

/** What a maker is told of a function while they write a formula. */
export interface FunctionHelp extends Pick<FunctionPage, 'name' | 'answers' | 'args'> {
  /** How many of the last arguments may be given again and again, in turn; 0 where none may. */
  readonly again: number;
}

/** Help for every function that has words for makers, ours and standard ones, in the order of the alphabet. */
export function functionHelp(system: UnitSystem): readonly FunctionHelp[] {
  const ours = functionPages(system).map((page) => ({ ...page, again: 0 }));
  return [...ours, ...STANDARD_PAGES].sort((a, b) => (a.name < b.name ? -1 : 1));
}
