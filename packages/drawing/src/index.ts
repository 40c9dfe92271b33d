export {
  type Clashes,
  type ClashOptions,
  type Floating,
  findClashes,
  type Overlap,
} from './clashes.ts';
export { COLUMNS, type Column } from './columns.ts';
export { chooseDimensions, type Dimension } from './dimensions.ts';
export {
  type Drawing,
  type DrawOptions,
  drawSheets,
  drawViews,
  type SheetOptions,
} from './draw.ts';
export { type DrawDxfOptions, type DxfDrawing, drawDxf } from './draw-dxf.ts';
export { type DrawWholeOptions, drawWhole, pictureOf, type WholeOptions } from './draw-whole.ts';
export type { Picture } from './dxf/arrange.ts';
export { type DxfInput, toDxf } from './dxf/to-dxf.ts';
export { type Exploded, explode } from './explode.ts';
export { DEFAULT_EYE, type Eye } from './eye.ts';
export type { Arrow, Label, Layout, PlacedDimension } from './layout.ts';
export { placeOfMark } from './mark.ts';
export type { Movement, MovementMarks } from './movement.ts';
export {
  type ParallelView,
  parallelView,
  type SeenFace,
  type SeenPiece,
  type Trace,
} from './parallel.ts';
export { type ParallelSvgOptions, parallelToSvg } from './parallel-svg.ts';
export { type Part, type PartsReading, type Placing, readParts } from './parts.ts';
export type { LeftOut, PartProblem, PartsSource } from './parts-source.ts';
export { type Box, buildScene, MOST_PIECES, type Piece, type Point, type Scene } from './scene.ts';
export type { Page, Panel, Sheet } from './sheet.ts';
export { type BoardSvgOptions, boardSvg, panelSvg } from './shop/board-svg.ts';
export { type CutItem, type CutList, cutList, type MaterialSum } from './shop/cut-list.ts';
export { type Kerf, kerfOf } from './shop/kerf.ts';
export {
  type BuyingPlan,
  buyingPlan,
  type PlanGroup,
  type PlannedBoard,
  type PlannedPanel,
  type PlannedPiece,
  type PlanOptions,
  type Unplanned,
} from './shop/plan.ts';
export { type RackOptions, type RackPlan, rackPlan } from './shop/rack.ts';
export {
  costSentence,
  groupSentence,
  isWhole,
  type ShopPlan,
  type ShopSource,
  shopPlan,
} from './shop/shop-plan.ts';
export { readStock, type StockItem, type StockReading } from './shop/stock.ts';
export { DRAWING_STYLE } from './style.ts';
export { type SvgOptions, sheetToSvg } from './svg.ts';
export { readTurn, type Turn } from './turn.ts';
export { bookFormat, type Format, mmFromOwn, ownFormat, ownFromMm } from './units.ts';
export {
  type Projection,
  project,
  type Rectangle,
  type Segment,
  type View,
  type ViewPiece,
} from './views.ts';
