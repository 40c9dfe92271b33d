export { boardSteps } from './cut-steps.ts';
export { CuttingFault, type CuttingFaultCode } from './fault.ts';
export { type AskedPlan, forgetFurther, keepFurther, plansAskedIn, timesAsked } from './further.ts';
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
export { type BoardsPick, pickBoards } from './pick-boards.ts';
export { planLengths } from './plan-lengths.ts';
export {
  type PanelBoard,
  type PanelJob,
  type PanelPlan,
  planPanel,
  type RippedBoard,
  type RoughBoard,
} from './plan-panel.ts';
export {
  type Board,
  type CutBoard,
  type CutPanel,
  type CutPiece,
  type CutStep,
  type Homeless,
  holds,
  type KindOf,
  type Piece,
  type PiecesOptions,
  type PiecesPlan,
  planPieces,
  type Section,
} from './plan-pieces.ts';
export { planSheets } from './plan-sheets.ts';
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
