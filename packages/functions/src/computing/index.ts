export {
  AGGREGATES,
  type Aggregate,
  NUMBER_AGGREGATES,
  type NumberAggregate,
  SUBTOTALS,
} from './aggregates.ts';
export { conditionOf, withDayCounted } from './criteria.ts';
export { standardComputing } from './families.ts';
export { formatNumber } from './formats.ts';
export { Matrix } from './matrix.ts';
export {
  type Corner,
  type Named,
  type Place,
  type Position,
  positions,
  type Standing,
} from './positions.ts';
export { repeated } from './repeat.ts';
export { SAYS } from './says.ts';
export { type Aids, type Computing, type Given, type Size, type Taken, taken } from './takes.ts';
export {
  added,
  compared,
  comparedNumbers,
  Failure,
  fail,
  finished,
  numberIn,
  settled,
  subtracted,
  toLogical,
  toNumber,
  toText,
  type Value,
} from './values.ts';
export { Wildcards } from './wildcards.ts';
export { substituted } from './words.ts';
