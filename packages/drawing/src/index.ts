export {
  isPlace,
  isShapeWords,
  listed,
  PLACE_FORMS,
  type PlaceForm,
  SHAPE_FORMS,
  type ShapeForm,
  type Turn,
} from '@kerfbook/wood';
export { type BookCard, bookCard } from './book-card.ts';
export type { Callout, PlacedCallout } from './callouts.ts';
export { chooseEye, shareSeen } from './choose-eye.ts';
export {
  type Clashes,
  type ClashOptions,
  type Floating,
  findClashes,
  type Overlap,
} from './clashes.ts';
export type { Column } from './columns.ts';
export { type CutAngle, cutAngles } from './cut-angles.ts';
export type { DetailOptions } from './details/detail.ts';
export { type DetailPicture, detailPictures } from './details/index.ts';
export type { Dimension } from './dimensions.ts';
export {
  type Drawing,
  type DrawOptions,
  drawFlat,
  drawViews,
  notPlaced,
  type SheetOptions,
} from './draw.ts';
export { type DrawDxfOptions, type DxfDrawing, drawDxf } from './draw-dxf.ts';
export {
  type DrawWholeOptions,
  drawingForFiles,
  drawWhole,
  FILE_PANEL,
  type ShadedForPrintOptions,
  shadedForPrint,
  type WholeOptions,
} from './draw-whole.ts';
export type { Picture } from './dxf/arrange.ts';
export { patternFile, wholePatterns } from './dxf/pattern-file.ts';
export type { DxfInput } from './dxf/to-dxf.ts';
export { type Exploded, explode } from './explode.ts';
export { DEFAULT_EYE, type Eye } from './eye.ts';
export { type JointCell, jointCell } from './joints/cell.ts';
export type { JointsOfBook } from './joints/index.ts';
export {
  type AlikePieces,
  hardwareSays,
  type Marked,
  type MarkedCut,
  type MarkedPieces,
} from './joints/marking.ts';
export { type MetSide, metSides } from './joints/met-sides.ts';
export {
  clearOfGroove,
  type PocketPlaces,
  type PocketScrews,
  pocketPlaces,
} from './joints/pocket-places.ts';
export { type KnownTable, knownTable, TableRow, type TableSource } from './known-table.ts';
export type { Arrow, Label, Layout, PlacedDimension } from './layout.ts';
export type { Movement, MovementDrawing } from './movement.ts';
export { textWidth } from './paper.ts';
export {
  type ParallelView,
  parallelView,
  type SeenFace,
  type SeenPiece,
  type Trace,
} from './parallel.ts';
export type { ParallelSvgOptions, Reach } from './parallel-svg.ts';
export { type Part, type PartsReading, type Placing, readParts } from './parts.ts';
export {
  endBelow,
  type LeftOut,
  otherTables,
  type PartProblem,
  type PartsSource,
} from './parts-source.ts';
export {
  headCell,
  type PartTrouble,
  type PlaceCell,
  partsPlaced,
  partTroubles,
  placeCell,
  shapeCell,
} from './place-cell.ts';
export { placeOfKey } from './place-key.ts';
export { type Box, buildScene, type Piece, type Point, pieceName, type Scene } from './scene.ts';
export { colourOf, shadeClass, shadeOfFace } from './shade.ts';
export { type PreparedSolids, prepareSolids } from './shapes/prepared.ts';
export type { SeenFacet } from './shapes/seen-facet.ts';
export {
  type SolidsView,
  type ViewWishes,
  viewSolids,
  type Way,
} from './shapes/solids-view.ts';
export type { Page, Panel, Sheet } from './sheet.ts';
export { type AlikeBoards, alikeBoards } from './shop/alike-boards.ts';
export {
  type BoardSvgOptions,
  boardSvg,
  type PanelSvgOptions,
  panelSvg,
} from './shop/board-svg.ts';
export { isCountedByName, sawnAlone } from './shop/by-name.ts';
export { type CellPlan, cellPlans, keyOfCell, restingOn } from './shop/cell-plans.ts';
export {
  type CutItem,
  type CutList,
  cutList,
  gluedSizes,
  type MaterialSum,
  moistureOf,
} from './shop/cut-list.ts';
export {
  fastenerPlaces,
  fastenersByKind,
  type Moves,
  type Place,
  type Points,
  type Rail,
  railErrors,
  railsOf,
} from './shop/fastener-places.ts';
export {
  type GluedBoards,
  type GlueRound,
  glueClampUps,
  glueGroups,
  glueRounds,
} from './shop/glue-rounds.ts';
export {
  type Apart,
  type JointItem,
  type JointJob,
  type JointLeftOut,
  type JointPlan,
  type JointPlanOrNot,
  jointPlan,
  markOf,
  savedSentence,
} from './shop/joint-plan.ts';
export type { Kerf } from './shop/kerf.ts';
export { nearMisses } from './shop/near-miss.ts';
export { type Offcut, offcutsOf, SHORTEST_KEPT } from './shop/offcuts.ts';
export { oldPrices, USUAL_PRICE_DAYS } from './shop/old-prices.ts';
export { type PartDiffers, partsDiffer } from './shop/parts-differ.ts';
export type {
  BuyingPlan,
  PlanGroup,
  PlannedBoard,
  PlannedPanel,
  PlannedPiece,
  PlanOptions,
  Unplanned,
} from './shop/plan.ts';
export { type RackOptions, type RackPlan, rackPlan } from './shop/rack.ts';
export { secondRip } from './shop/second-rip.ts';
export { shapingSteps } from './shop/shaping-steps.ts';
export {
  costSentence,
  groupSentence,
  groupSureSentence,
  isWhole,
  type ShopPlan,
  type ShopSource,
  shopPlan,
  sureSentence,
  wayOfCutting,
} from './shop/shop-plan.ts';
export { shoulderLength, shouldersSaid } from './shop/shoulders.ts';
export type { StockItem, StockReading } from './shop/stock.ts';
export { planedAway, roughAsTyped } from './shop/thickness-notes.ts';
export { partsDrawn } from './side-by-side.ts';
export {
  inFeet,
  isCase,
  isThin,
  type OverAll,
  overAllOf,
  type SizeWord,
  type SizeWords,
  sizeWords,
} from './size-words.ts';
export { sizesInWords } from './sizes-in-words.ts';
export { DRAWING_STYLE, SHADED_STYLE } from './style.ts';
export type { SvgOptions } from './svg.ts';
export { escapeText, outlinesPath, pathOf } from './svg-text.ts';
export { type CurveTemplate, curveTemplates, type Printed } from './templates/curve-templates.ts';
export {
  type TemplateOptions,
  type TemplatePage,
  type TemplatePages,
  templatePages,
} from './templates/template-pages.ts';
export { bookFormat, type Format, mmFromOwn, ownFromMm } from './units.ts';
export { isBlank } from './value-words.ts';
export {
  type Projection,
  project,
  type Rectangle,
  type Segment,
  type View,
  type ViewPiece,
} from './views.ts';
export type { Outline } from './visible-face.ts';
export { WOOD_TONES, woodTone } from './wood-tone.ts';
