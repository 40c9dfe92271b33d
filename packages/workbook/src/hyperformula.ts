export { Calculator, type Content } from './engine/calculator.ts';
export { checkEngine } from './engine/check.ts';
export { HyperFormulaEngine } from './follow/hyperformula.ts';
