export { type Amounts, type AmountsOrNot, amountsOf } from './customer/amounts.ts';
export {
  CUSTOMER_PAGES,
  type CustomerPageKind,
  type CustomerPageMade,
  type CustomerPageOptions,
  customerPage,
} from './customer/customer-page.ts';
export { dayWords, isDay, MOST_VALID_DAYS, VALID_DAYS } from './customer/days.ts';
export { FIRST_WITHOUT, QUOTE_PARTS, type QuotePart } from './customer/quote.ts';
export type { EarlierPayment } from './customer/receipt.ts';
export {
  type FiguresSaid,
  figuresSaid,
  type Money,
  type SaidName,
  saidOf,
} from './customer/said.ts';
export {
  asVariant,
  type OptionsReading,
  optionOf,
  optionsOf,
  type PricedOption,
} from './customer/variants.ts';
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
export { PAPERS, type PageFonts, type Paper } from './page/printed-page.ts';
export { guideSections } from './page/sections.ts';
export { GUIDE_STYLES } from './page/styles.ts';
export { type GuidePageOptions, guidePage } from './page/whole-page.ts';
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
export { type WordsWanted, wordsHere, wordsSought, wordsWanted } from './words-wanted.ts';
