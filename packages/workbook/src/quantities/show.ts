export { allowProblem } from './allow.ts';
export { entryText } from './entry.ts';
export { showValue, showWithUnit, unitShown, withUnit } from './show-value.ts';
export type { ShowContext } from './style.ts';
