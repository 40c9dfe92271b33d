export {
  type Asker,
  asCell,
  type Failing,
  type Given,
  HereAsker,
  isStopped,
  numberOf,
  type Outcome,
  outcomes,
  type Question,
  SharedAsker,
  type Waiting,
} from './ask.ts';
export { type Aim, aimsOf, type Best, best, type Choice, frontOf } from './best.ts';
export { StudyFault } from './fault.ts';
export {
  type Axis,
  axisOf,
  clausesOf,
  contextOf,
  entryFor,
  inputCell,
  knownCell,
  MOST_VALUES,
  type Span,
  type StudyBook,
  scalarIn,
  spanOf,
  takeEdit,
} from './inputs.ts';
export { numbersFrom, triangular } from './random.ts';
export {
  type Crossing,
  type Found,
  type Goal,
  goalOf,
  type Mark,
  type Stretch,
  seek,
} from './seek.ts';
export { foundWords } from './seek-words.ts';
export {
  MOST_DRAWS,
  percentile,
  type Spread,
  type SpreadOf,
  spread,
  type Uncertain,
  USUAL_DRAWS,
  uncertainOf,
} from './spread.ts';
export {
  readStudies,
  STUDY_KINDS,
  type Study,
  type StudyQuestion,
  type StudyWords,
  studyOf,
} from './studies.ts';
export { MOST_SETS, runTable, setsOf, shades, type TableRun } from './table.ts';
export {
  heldIn,
  readVariants,
  runVariants,
  type Variant,
  type VariantInput,
  type VariantRun,
  type Variants,
} from './variants.ts';
