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
export { MOST_BOARDS, pickStaves, type StavesPick } from './pick-staves.ts';
export { planLengths } from './plan-lengths.ts';
export { planSheets } from './plan-sheets.ts';
export {
  planStaves,
  type RoughBoard,
  type Stave,
  type StaveBoard,
  type StavesJob,
  type StavesPlan,
} from './plan-staves.ts';
export { MOST_PANELS } from './sheets-problem.ts';
export type {
  CutTree,
  Place,
  PlacedRectangle,
  PlannedSheet,
  SheetCut,
  SheetPart,
  SheetSize,
  SheetsJob,
  SheetsPlan,
} from './sheets-types.ts';
