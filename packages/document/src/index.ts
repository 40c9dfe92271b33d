export { applyChanges, type Conflict, replay, type Step } from './changes/apply.ts';
export { changesBetween, documentChanges } from './changes/between.ts';
export { History, type HistoryEntry, type TurnSteps } from './changes/history.ts';
export { listChanges } from './changes/list-changes.ts';
export { cellsByIds, checksByIds } from './changes/loose.ts';
export { readChanges } from './changes/read.ts';
export type { CellChange, Change } from './changes/types.ts';
export type { CellTraits, Edit, HeadKey } from './edit/types.ts';
export {
  type Complaint,
  FAULTS,
  type FaultCode,
  type RefusedResult,
  refuse,
} from './faults/catalogue.ts';
export { headWords } from './format/head-words.ts';
export {
  KNOWN_NAMES,
  type KnownName,
  type KnownReader,
  readersOf,
} from './format/known-names.ts';
export { READERS, type Reader } from './format/readers.ts';
export { savePieces, saveText } from './format/save.ts';
export {
  type Allow,
  BACKGROUNDS,
  type BookDocument,
  bookSchema,
  type CellDocument,
  type CellStyle,
  type CheckDocument,
  type ColumnDocument,
  cellSchema,
  checkSchema,
  columnSchema,
  DOCUMENT_VERSION,
  type Guide,
  HIDDEN_FROM_READERS,
  headSchema,
  LIMITS,
  type OtherUnits,
  type Photo,
  type RowDocument,
  rowSchema,
  type Scalar,
  type SheetDocument,
  type Show,
  sheetSchema,
  type TableDocument,
  TONES,
  tableSchema,
} from './format/schema.ts';
export { sheetNameProblem } from './format/sheet-name.ts';
export { atMost, cellLetters, counted, savedLetters } from './format/size.ts';
export { columnName, parseAddress, splitSheet, writtenSheet } from './formula/address.ts';
export { callAt, wordAt } from './formula/caret.ts';
export { FORMER_NAMES } from './formula/former.ts';
export { nextForm } from './formula/forms.ts';
export { type KeptCorner, type KeptReference, replaceKept } from './formula/kept.ts';
export {
  keptNameProblem,
  type NameProblem,
  nameKey,
  nameProblem,
  numbered,
} from './formula/names.ts';
export { addressOf, cellOf, readWritten } from './formula/references.ts';
export { cellForRow, shiftedCell, shifting } from './formula/shift.ts';
export { transposedCell } from './formula/transpose.ts';
export { formulaLetters, guardFormula } from './formula/tree/guard.ts';
export { explainMistake } from './formula/tree/mistakes.ts';
export {
  type BinarySign,
  childrenOf,
  type ErrorWord,
  type Node,
  nodesOf,
} from './formula/tree/nodes.ts';
export {
  carryRead,
  cellsOfCheck,
  type Formula,
  formulaOf,
  keptOf,
  readFormula,
  readTokens,
  readTyped,
  turned,
  typedOf,
  withFormula,
} from './formula/tree/read.ts';
export { isReference, type Token, textOf, tokensOf } from './formula/tree/tokens.ts';
export {
  renamed,
  rereferred,
  shrinkAfterDelete,
  withIds,
  withoutAddresses,
  written,
  writtenText,
  writtenTokens,
} from './formula/tree/turns.ts';
export { extentOf, functionsIn, mentions, usesName } from './formula/tree/uses.ts';
export { type TypedToken, takesReference, typedTokens } from './formula/typed.ts';
export { type Joined, joinBooks } from './joining/join.ts';
export type { Told } from './joining/sentences.ts';
export { documentProblem } from './loading/consistency.ts';
export { keptByIds } from './loading/kept-by-ids.ts';
export { type Loaded, loadText, loadValue, readJson } from './loading/load.ts';
export type { Migration } from './loading/migrate.ts';
export { misfit } from './loading/misfit.ts';
export { type Log, type Merged, mergeLogs } from './merging/merge.ts';
export { same } from './merging/same.ts';
export {
  type Meeting,
  settled,
  spotKey,
  type ToSettle,
  type Which,
} from './merging/settle.ts';
export type { CellPart, MergeConflict, Spot } from './merging/sides.ts';
export { turnedCheck } from './state/check-formulas.ts';
export {
  filledSentence,
  lengthSaid,
  lengthsInSentence,
  namesInSentence,
  renamedSentence,
} from './state/check-sentences.ts';
export {
  CHECKS_SHEET,
  type FormulaCell,
  formulaCells,
  usersOfName,
} from './state/formulas.ts';
export type { RowGroup } from './state/groups.ts';
export { freeName, freshId, idOf, type MakeId, randomId } from './state/ids.ts';
export { lettersAtMost, lettersNow, megabytes, PER_COLUMN, PER_ROW } from './state/letters.ts';
export { type NamesIn, namesInColumn, renamedListed } from './state/listed-names.ts';
export type { At, Place } from './state/places.ts';
export type { CellPut, RowState, SheetState } from './state/sheet.ts';
export { BookState, type Head } from './state/state.ts';
