export { cuttingSentence } from './buying.ts';
export {
  FORMER_FUNCTIONS,
  functionNames,
  functionReference,
  ourFunction,
  PLANNERS,
  standardFunction,
} from './catalogue.ts';
export { type Lazy, lazy, loaded, NotLoaded, timesMissed } from './lazy.ts';
export { loadLazy, needsLazy } from './load-lazy.ts';
export { planner } from './planner.ts';
export { snap } from './rounding.ts';
export type { NoAnswer, OfNumbers } from './rounding-family.ts';
export { type Gives, STANDARD, type StandardFunction } from './standard.ts';
export {
  STANDARD_PAGES,
  type StandardArgument,
  type StandardPage,
  type StandardTakes,
  standardSays,
} from './standard-words.ts';
export { type Cells, cellsOf, type Steps } from './steps.ts';
