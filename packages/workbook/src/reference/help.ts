import { STANDARD_PAGES, type StandardPage, standardSays } from '@kerfbook/functions';
import type { UnitSystem } from '@kerfbook/wood';
import { type FunctionPage, functionPages } from './pages.ts';

/** What a maker is told of a function while they write a formula. */
export interface FunctionHelp extends Pick<FunctionPage, 'name' | 'answers' | 'args'> {
  /** How many of the last arguments may be given again and again, in turn; 0 where none may. */
  readonly again: number;
}

/**
 * Help for every function in the order in which it is offered: ours by the alphabet, then the standard
 * ones as their page has them, everyday ones first, and other names of the same functions last.
 *
 * @param system decides the units that arguments of ours are told in
 */
export function functionHelp(system: UnitSystem): readonly FunctionHelp[] {
  const ours = functionPages(system).map((page) => ({ ...page, again: 0 }));
  ours.sort((a, b) => (a.name < b.name ? -1 : 1));
  const first = STANDARD_PAGES.filter(({ sameAs }) => sameAs === undefined);
  const others = STANDARD_PAGES.filter(({ sameAs }) => sameAs !== undefined);
  const standard = [...first, ...others].map(({ name, answers, args, again }) => ({
    name,
    answers,
    args: args.map((one) => ({ ...one, says: standardSays(one) })),
    again,
  }));
  return [...ours, ...standard];
}

/** How a standard function is called: `COUNTIFS(range, condition, …)`, what may be left out in brackets. */
export function standardCall({ name, args, again }: StandardPage): string {
  const call = args.map((one) => (one.optional ? `[${one.name}]` : one.name));
  return `${name}(${[...call, ...(again > 0 ? ['…'] : [])].join(', ')})`;
}
