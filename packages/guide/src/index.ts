export type { Figure, FigureOptions } from './figures/figure.ts';
export { figureOf, figureProblems, figuresOf } from './figures/figures.ts';
export { FIGURE_STYLES } from './figures/styles.ts';
export {
  type FiguresOf,
  GUIDE_PARTS,
  type GuideOptions,
  type GuidePart,
  type GuideSection,
} from './page/options.ts';
export { PAGE_WORDS, type PageWord } from './page/page-words.ts';
export { guideSections } from './page/sections.ts';
export { GUIDE_STYLES } from './page/styles.ts';
export {
  type GuideFonts,
  type GuidePageOptions,
  guidePage,
  PAPERS,
  type Paper,
} from './page/whole-page.ts';
export { type Plan, readPlan } from './plan.ts';
export { READERS_WORDS, type ReadersWord } from './readers/reader-words.ts';
export { bookForReaders, checksKept, type KeptCheck } from './readers-book.ts';
export {
  READERS_PAGE_STYLES,
  type ReadersPageMade,
  type ReadersPageOptions,
  readersPage,
} from './readers-page.ts';
export { readersScript } from './readers-program.ts';
export type { GuideSource } from './source.ts';
export {
  type BuiltStep,
  builtSteps,
  cautionProblems,
  partsByName,
  partsNamed,
} from './steps/built.ts';
export {
  FIGURES,
  type FigureKind,
  type FigureSaid,
  figureIn,
  GROOVE_CUTS,
  type GrooveCut,
} from './steps/figures-known.ts';
export {
  type Measure,
  MOST_ROUNDS,
  MOST_STEPS,
  readSteps,
  type Step,
  type StepsReading,
} from './steps/read-steps.ts';
export { asMakersWrite } from './text/as-written.ts';
export { numberWords, type OwnNumbers, plainText, type Run, runsOf } from './text/runs.ts';
export { spoken } from './text/spoken.ts';
export { readTranslation, type Spoken, type Translation } from './words/second-language.ts';
export { type WordsWanted, wordsWanted } from './words-wanted.ts';
