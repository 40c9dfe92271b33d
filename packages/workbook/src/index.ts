export type {
  Applied,
  CellValue,
  CellView,
  CheckState,
  ErrorMark,
  ErrorValue,
  Explanation,
  Followed,
  LongEdit,
  NameView,
  Neighbour,
  OpenWorkbook,
  Pace,
  Problem,
  Refused,
  SheetView,
  Shown,
  TableView,
} from './api.ts';
export { compareBooks, type Difference } from './book/compare.ts';
export type { RowGroup } from './book/groups.ts';
export { randomId } from './book/ids.ts';
export type { FoundProblem } from './book/look.ts';
export { ownTableEdit } from './book/own-sheet.ts';
export {
  SHOP_COLUMNS,
  type ShopColumn,
  type ShopTable,
  shopTableEdit,
} from './book/shop-tables.ts';
export { type Loaded, loadText, loadValue, readJson } from './document/load.ts';
export { saveText } from './document/save.ts';
export {
  type Allow,
  type BookDocument,
  bookSchema,
  type CellDocument,
  type CheckDocument,
  type ColumnDocument,
  DOCUMENT_VERSION,
  GROUNDS,
  LIMITS,
  type Look,
  type RowDocument,
  type Scalar,
  type SheetDocument,
  type Show,
  type TableDocument,
} from './document/schema.ts';
export type { At, CellTraits, Edit, Place } from './edit/types.ts';
export { bringParts, needsParts } from './engine/bring.ts';
export { Calculator, type Content } from './engine/calculator.ts';
export { checkEngine } from './engine/check.ts';
export { functionNames } from './engine/config.ts';
export { functionReference } from './engine/described.ts';
export { type Complaint, FAULTS, type FaultCode } from './faults/catalogue.ts';
export { columnName, parseAddress, writtenSheet } from './formula/address.ts';
export { nameKey, nameProblem } from './formula/names.ts';
export {
  callAt,
  type FormulaPart,
  formulaParts,
  takesReference,
  wordAt,
} from './formula/parts.ts';
export { functionsIn, readWritten } from './formula/references.ts';
export { nextForm, shifted, turned } from './formula/shift.ts';
export { type DecimalMark, type MarksIn, marksIn, withDecimalPoint } from './quantities/marks.ts';
export { type ReadContext, type Reading, readEntry } from './quantities/read.ts';
export { ALLOW_SENTENCES, ENTRY_FAULTS, type EntryCode } from './quantities/sentences.ts';
export {
  allowProblem,
  entryText,
  type ShowContext,
  showValue,
  showWithUnit,
  unitShown,
  withUnit,
} from './quantities/show.ts';
export { quantityUnits } from './quantities/units.ts';
export { QUANTITY_WORDS } from './quantities/words.ts';
export { type Alone, workOut } from './reference/alone.ts';
export {
  argumentSays,
  exampleResults,
  type FunctionPage,
  findPages,
  functionPages,
} from './reference/pages.ts';
export { STANDARD_PAGES, type StandardPage } from './reference/standard.ts';
export { type OpenOptions, Workbook } from './workbook.ts';
