export { CuttingFault, type CuttingFaultCode } from './fault.ts';
export { MOST_PARTS } from './lengths-problem.ts';
export type {
  Effort,
  LengthPart,
  LengthsJob,
  LengthsPlan,
  LengthTotals,
  PlacedPart,
  PlannedBoard,
  RackOffcut,
  StockLength,
} from './lengths-types.ts';
export { planLengths } from './plan-lengths.ts';
