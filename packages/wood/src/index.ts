export type { ArgumentDescription, FunctionDescription, Task } from './describe.ts';
export { Fault, type FaultClass, type FaultDetail, faultSentence } from './fault.ts';
export { FUNCTIONS } from './functions.ts';
export {
  OWN_UNITS,
  ownFromUs,
  QUANTITIES,
  type Quantity,
  type UnitSystem,
  usFromOwn,
} from './quantity.ts';
