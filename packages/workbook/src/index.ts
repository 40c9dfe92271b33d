export {
  type Allow,
  type At,
  BACKGROUNDS,
  type BookDocument,
  type CellChange,
  type CellDocument,
  type CellStyle,
  type CellTraits,
  type Change,
  type CheckDocument,
  type ColumnDocument,
  type Complaint,
  callAt,
  carryRead,
  cellForRow,
  columnName,
  documentChanges,
  type Edit,
  FAULTS,
  type FaultCode,
  filledSentence,
  type Guide,
  type Head,
  HIDDEN_FROM_READERS,
  headWords,
  type Joined,
  joinBooks,
  KNOWN_NAMES,
  type KnownName,
  LIMITS,
  type Loaded,
  type Log,
  loadText,
  loadValue,
  type MergeConflict,
  type Merged,
  mergeLogs,
  nameKey,
  nameProblem,
  namesInSentence,
  nextForm,
  type Photo,
  type Place,
  parseAddress,
  READERS,
  type Reader,
  type RowDocument,
  type RowGroup,
  randomId,
  readersOf,
  readJson,
  readTyped,
  readWritten,
  replay,
  type Scalar,
  type SheetDocument,
  type Show,
  type Spot,
  saveText,
  settled,
  shiftedCell,
  shifting,
  spotKey,
  type TableDocument,
  TONES,
  type Told,
  type TurnSteps,
  type TypedToken,
  takesReference,
  transposedCell,
  typedTokens,
  type Which,
  wordAt,
  writtenSheet,
} from '@kerfbook/document';
export {
  functionNames,
  functionReference,
  needsLazy,
  PLANNERS,
  STANDARD_PAGES,
  type StandardPage,
  standardSays,
} from '@kerfbook/functions';
export { editDistance } from '@kerfbook/wood';
export type {
  Applied,
  CellIds,
  CellValue,
  CellView,
  CheckState,
  Choice,
  ErrorValue,
  Explanation,
  Followed,
  LongEdit,
  Moved,
  NameView,
  Neighbour,
  NumberSaid,
  OnCircle,
  OpenWorkbook,
  Pace,
  Problem,
  Refused,
  SheetView,
  Shown,
  TableView,
  TrialEdit,
} from './api.ts';
export {
  choiceMeant,
  choicesLike,
  choicesNear,
  type FoundChoice,
  notAChoice,
} from './book/choices.ts';
export { compareBooks, type Difference } from './book/compare.ts';
export { contextOf } from './book/context.ts';
export {
  JOB_STATE,
  JOB_STATES,
  type JobFacts,
  type JobState,
  jobBegun,
  jobEdit,
  jobIn,
  jobStateEdit,
} from './book/job.ts';
export type { FoundProblem } from './book/look.ts';
export { ownTableEdit } from './book/own-sheet.ts';
export { ownKindsIn } from './book/own-tables.ts';
export { promiseProblems } from './book/promises.ts';
export type { Comparison, Remembered } from './book/remembered.ts';
export { shapeColumnsEdit } from './book/shape-columns.ts';
export {
  SHOP_COLUMNS,
  type ShopColumn,
  type ShopTable,
  shopTableEdit,
  shopTablesEdit,
} from './book/shop-tables.ts';
export { cameIn } from './catching-up/came-in.ts';
export { type Compared, compared } from './catching-up/compared.ts';
export { type Exchanged, exchanged, type JoinStep } from './catching-up/exchange.ts';
export { byIds, inUnits } from './catching-up/in-step.ts';
export { LISTED_KINDS, type Listed, type ListedKind, listed } from './catching-up/listed.ts';
export {
  type Choices,
  type Met,
  Renewal,
  type Side,
} from './catching-up/renewal.ts';
export { statesTogether } from './catching-up/states.ts';
export type { Weighed } from './catching-up/weighed.ts';
export { beginRack, type RackBoards, rackEdit } from './from-shop/rack-edits.ts';
export {
  SHOP_KINDS,
  type ShopFigure,
  type ShopFigures,
  type ShopKind,
  type ShopTaking,
  shopFigures,
} from './from-shop/shop-figures.ts';
export { SHOP_NAMES } from './from-shop/shop-names.ts';
export { ShopOffer } from './from-shop/shop-offer.ts';
export { type RowToAdd, rowsAdded, takeFigures } from './from-shop/take-figures.ts';

export { loadLazy, openWhole } from './late.ts';
export { allowProblem } from './quantities/allow.ts';
export { MONTHS } from './quantities/dates.ts';
export {
  type DecimalMark,
  type DecimalMarksIn,
  decimalMarksIn,
  withDecimalPoint,
} from './quantities/decimal-marks.ts';
export { coarser, type Pull, pullOf, snapped, stepped } from './quantities/pull.ts';
export { type ReadContext, type Reading, readEntry } from './quantities/read.ts';
export type { EntryCode } from './quantities/sentences.ts';
export {
  type ShowContext,
  showValue,
  showWithUnit,
  unitShown,
  withUnit,
} from './quantities/show.ts';
export { type Style, styleOf } from './quantities/style.ts';
export { quantityUnits } from './quantities/units.ts';
export { QUANTITY_WORDS } from './quantities/words.ts';
export { type Alone, workOut } from './reference/alone.ts';
export { type FunctionHelp, functionHelp, standardCall } from './reference/help.ts';
export {
  exampleResults,
  type FunctionPage,
  findPages,
  functionNote,
  functionPages,
} from './reference/pages.ts';
export { circleText } from './results/circle.ts';
export { roundFigures } from './round-figures.ts';
export { type OpenOptions, Workbook } from './workbook.ts';
