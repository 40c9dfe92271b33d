export { tokensOf } from '@kerfbook/document';
export { Calculator } from './engine/calculator.ts';
export { checkEngine } from './engine/check.ts';
export type { Content } from './engine/input.ts';
export { HyperFormulaEngine } from './follow/hyperformula.ts';
