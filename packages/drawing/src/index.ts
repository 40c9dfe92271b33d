export { COLUMNS, type Column } from './columns.ts';
export { chooseDimensions, type Dimension } from './dimensions.ts';
export { type Drawing, type DrawOptions, drawSheets, drawViews } from './draw.ts';
export type { Arrow, Label, Layout } from './layout.ts';
export { placeOfMark } from './mark.ts';
export { type Part, type PartsReading, type Placing, readParts } from './parts.ts';
export type { PartProblem, PartsSource } from './parts-source.ts';
export { type Box, buildScene, MOST_PIECES, type Piece, type Point, type Scene } from './scene.ts';
export type { Panel, Sheet } from './sheet.ts';
export { type CutItem, type CutList, cutList, type MaterialSum } from './shop/cut-list.ts';
export { readStock, type StockItem, type StockReading } from './shop/stock.ts';
export { DRAWING_STYLE } from './style.ts';
export { type SvgOptions, sheetToSvg } from './svg.ts';
export { readTurn, type Turn } from './turn.ts';
export { type Format, mmFromOwn, ownFormat, ownFromMm } from './units.ts';
export {
  type Projection,
  project,
  type Rectangle,
  type Segment,
  type View,
  type ViewPiece,
} from './views.ts';
