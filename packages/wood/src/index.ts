export { dewPoint, indoorHumidity } from './air.ts';
export {
  compoundBevel,
  compoundMitre,
  splayAngle,
  splayLength,
  splayTurn,
  taperAngle,
  taperSize,
} from './angles.ts';
export {
  apronLength,
  fenceStop,
  groovePasses,
  kneeRoom,
  railBetween,
  seatsAlong,
  supportCount,
} from './base.ts';
export {
  bendingStrength,
  sagLasting,
  sagOverhang,
  stressOverhang,
  stressPoint,
  stressUniform,
} from './beams.ts';
export {
  type Block,
  type BlockMeeting,
  blockMeetings,
  type Corner,
  looseBlocks,
  shareRoom,
} from './blocks.ts';
export { breadboardSlot } from './breadboards.ts';
export {
  arcLength,
  arcRadius,
  ovalArea,
  ovalBoard,
  ovalEdge,
  ovalPins,
  ovalWaste,
} from './curves.ts';
export type { How, WoodClass } from './data/provenance.ts';
export type {
  ArgumentDescription,
  FunctionArgument,
  FunctionDescription,
  FunctionResult,
  RangeArgument,
  TableArgument,
  TableColumn,
  TableRow,
  Task,
} from './describe.ts';
export {
  dovetailAngle,
  dovetailBase,
  dovetailCount,
  dovetailMark,
  dovetailTail,
} from './dovetails.ts';
export { drawerGap, drawerHeight, drawerWidth } from './drawers.ts';
export { dressedThickness, dressedWidth } from './dressed.ts';
export {
  fastenerCount,
  pocketScrew,
  screwDiameter,
  screwHold,
  screwLongest,
  slotLength,
} from './fastenings.ts';
export { Fault, type FaultClass, type FaultDetail, faultSentence } from './fault.ts';
export {
  findSpecies,
  materialKind,
  namesSameWood,
  sameWood,
  speciesCalled,
  speciesFigure,
  speciesNames,
  woodsMeant,
} from './find-species.ts';
export { finishCoverage, finishVolume, gritSteps, sandingHours } from './finishing.ts';
export {
  doorSize,
  framePanelGap,
  framePanelWidth,
  frameRail,
  hingeCount,
} from './frames.ts';
export { FUNCTIONS } from './functions.ts';
export { screwClearanceHole, screwPilotHole } from './holes.ts';
export { cupDepth, moistureLag, panelMoisture, swingFollowed } from './lag.ts';
export { centimetres, feet, feetInches, fraction, inches, millimetres } from './lengths.ts';
export { listed } from './listed.ts';
export {
  boardFeet,
  gradeYield,
  laminatedThickness,
  plies,
  quartersFor,
  quartersPlaned,
  quartersRough,
  surfaceMeasure,
} from './lumber.ts';
export { emc, emcDelta, humidityForEmc, movement, movementSwing } from './moisture.ts';
export {
  LEAST_APART,
  SPARE_DEPTH,
  tenonCount,
  tenonLength,
  tenonsApart,
  tenonThickness,
  tenonWidth,
  USUAL_LEAVE,
} from './mortises.ts';
export { editDistance, nearestNames, nearHint, nearNames } from './nearest.ts';
export { outdoorEmc, outdoorHumidity, outdoorPlaces, outdoorTemperature } from './outdoor.ts';
export {
  OWN_TABLES,
  type OwnColumn,
  type OwnKind,
  type OwnRow,
  type OwnTableDescription,
  type OwnTables,
  ownRowsOf,
  ownTablesOf,
  withOwnTables,
} from './own.ts';
export {
  clampCount,
  clampForce,
  glueStages,
  glueVolume,
  panelBoards,
  panelBoardWidth,
} from './panel.ts';
export { AXIS_WORDS, PLACE_FORMS, type PlaceForm } from './placing/forms.ts';
export {
  cornerOf,
  type NotPlaced,
  type PartToPlace,
  type PlacedGap,
  type PlacedLine,
  type PlacedPart,
  type Placement,
  placeParts,
} from './placing/place.ts';
export { isPlace } from './placing/place-words.ts';
export { PLACE_SAYS } from './placing/says.ts';
export { alongAxes, readTurn, type Sides, type Turn } from './placing/turn.ts';
export {
  priceForMargin,
  priceForMarkup,
  priceRounded,
  priceWithTax,
  taxWithin,
  workHours,
} from './pricing.ts';
export {
  KG_PER_POUND,
  ML_PER_FLUID_OUNCE,
  MM_PER_INCH,
  NEWTON_PER_POUND_FORCE,
  OWN_UNITS,
  ownFromUs,
  QUANTITIES,
  type Quantity,
  type UnitSystem,
  usFromOwn,
} from './quantity.ts';
export { howWords, type Rested, type RestsOn, restingOn, rests } from './rests.ts';
export { humidityForMovement, indoorMoisture } from './room.ts';
export { screwSideLoad } from './screws.ts';
export {
  type EdgeForm,
  type EndCut,
  type EndsForm,
  type Lean,
  type OutlineForm,
  type PartForm,
  SHAPE_COLUMNS,
  type ShapeCells,
  type ShapeColumn,
  type ShapeTrouble,
  type Side,
  type SideOrWay,
  type TaperFaces,
} from './shaping/form.ts';
export { SHAPE_FORMS, type ShapeForm, type ShapeWordColumn } from './shaping/forms.ts';
export { leanRoom, leansBy } from './shaping/lean.ts';
export { type FormReading, outlineWord, readForm } from './shaping/read-form.ts';
export { SHAPE_SAYS } from './shaping/says.ts';
export { isShapeWords } from './shaping/words.ts';
export { sheetStiffness, sheetThickness, sheetWeight } from './sheets.ts';
export {
  hardness,
  moveAtAngle,
  moveRadial,
  moveTangential,
  specificGravity,
  stiffness,
  woodWeight,
} from './species.ts';
export type { Figure, Species, SpeciesProperty } from './species-records.ts';
export { legSlenderness, sagPoint, sagUniform, spanForSag, tipLoad } from './strength.ts';
export { tipLoadDrawers, tipShare, tipShareWorst } from './tipping.ts';
export {
  buttonTravel,
  recessDepth,
  recessDiameter,
  slotTravel,
  swivelReach,
  swivelSwing,
  swivelTravel,
  swivelTravelInLine,
} from './travel.ts';
export { PRICE_ARGUMENTS, type PriceList, piecePrice, woodPrice } from './wood-prices.ts';
