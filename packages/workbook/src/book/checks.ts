import {
  type At,
  type BookState,
  CHECKS_SHEET,
  type CheckDocument,
  cellsOfCheck,
  type Formula,
  filledSentence,
  formulaOf,
  lengthSaid,
  lengthsInSentence,
  namesInSentence,
  type Show,
  writtenText,
} from '@kerfbook/document';
import type { CellValue, CheckState, ErrorValue, NumberSaid, Shown } from '../api.ts';
import type { Values } from '../port.ts';
import { inOther } from '../quantities/convert.ts';
import { showValue, unitShown, withUnit } from '../quantities/show.ts';
import { styleOf } from '../quantities/style.ts';
import { contextOf, readContext } from './context.ts';

/** What checks are told from. */
export interface Sources {
  readonly state: BookState;
  readonly values: Values;
}

/** The state of every check now, in the order of the document. */
export function checkStates(sources: Sources): readonly CheckState[] {
  return sources.state.checks.map((check, row) => checkState(sources, check, row));
}

/**
 * The same after an edit that changed these cells, and the results of the checks in these rows. A
 * check stands as it was when neither its result nor a number in its sentence changed.
 */
export function checkStatesAfter(
  sources: Sources,
  before: readonly CheckState[],
  rows: ReadonlySet<number>,
  cells: readonly At[],
): readonly CheckState[] {
  const touched = placesByKey(cells);
  return sources.state.checks.map((check, row) => {
    const was = before[row];
    if (was?.id !== check.id || rows.has(row)) return checkState(sources, check, row);
    if (was.state === 'pass' || !showsOneOf(sources.state, check, touched)) return was;
    return checkState(sources, check, row);
  });
}

const keyOf = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;

/** Where a long list of changes is not worth sorting: any sentence may show one of them. */
const SORTED = 1_000;

function placesByKey(cells: readonly At[]): ReadonlySet<string> | undefined {
  return cells.length > SORTED ? undefined : new Set(cells.map(keyOf));
}

function showsOneOf(
  state: BookState,
  check: CheckDocument,
  touched: ReadonlySet<string> | undefined,
): boolean {
  if (touched === undefined) return true;
  for (const name of namesInSentence(check.says)) {
    const at = state.named(name);
    if (at !== undefined && touched.has(keyOf(at))) return true;
  }
  return false;
}

function checkState({ state, values }: Sources, check: CheckDocument, row: number): CheckState {
  const about = {
    id: check.id,
    name: check.name,
    ...(check.sheet === undefined ? {} : { sheet: check.sheet }),
  };
  const value = values.value({ sheet: CHECKS_SHEET, row, column: 0 });
  const standing = checkStanding(value, check);
  switch (standing) {
    case 'pass':
      return { ...about, state: standing, says: check.name };
    case 'unknown':
      return { ...about, state: standing, ...unknown(value) };
    default:
      return { ...about, state: standing, says: sentence({ state, values }, check.says) };
  }
}

/** How a check stands whose formula comes to this. */
export function checkStanding(
  value: CellValue,
  { severity }: Pick<CheckDocument, 'severity'>,
): CheckState['state'] {
  switch (value.kind) {
    case 'logical':
      return value.logical ? 'pass' : severity;
    case 'number':
      return value.number === 0 ? severity : 'pass';
    default:
      return 'unknown';
  }
}

function unknown(value: CellValue): Pick<CheckState, 'says' | 'from' | 'circle'> {
  const { says, from, circle }: Partial<ErrorValue> =
    value.kind === 'error' ? value.error : { says: 'it is not yes or no.' };
  return {
    says: `This check can't tell: ${says}`,
    ...(from === undefined ? {} : { from }),
    ...(circle === undefined ? {} : { circle }),
  };
}

/**
 * Puts the named cells into a sentence as they are shown, with their units: `1 1/2 in`, `30 %`, `$12.50`; lengths that
 * stand there themselves (`{1/4 in}`) in the units of the workbook. Numbers that
 * differ and would read the same are told apart, or the sentence would contradict itself; lengths in fractions are all
 * written in one form (K5).
 * @param say puts words that cells hold into other words
 * @param said how its numbers are said where that is rougher than they are shown
 */
export function sentence(
  sources: Sources,
  says: string,
  say: (words: string) => string = (words) => words,
  said?: NumberSaid,
): string {
  const names = [...new Set(namesInSentence(says))];
  const all = [
    ...names.flatMap((name) => wordsOf(sources, name, say, said) ?? []),
    ...[...new Set(lengthsInSentence(says))].map((word) => lengthWords(sources.state, word, said)),
  ];
  const alike = all.filter((one) => twinsOf(one, all).length > 0);
  const finer = all.map((one) =>
    alike.includes(one) && one.finest !== undefined ? { ...one, text: one.finest } : one,
  );
  const told = finer.some((one) => twinsOf(one, finer).length > 0) ? all.map(inDecimals) : finer;
  const byName = new Map(told.map((one) => [one.name, one]));
  return filledSentence(says, (name) => {
    const words = byName.get(name);
    if (words === undefined) return undefined;
    const twins = twinsOf(words, told);
    return twins.length === 0 ? words.text : toldFrom(words.exact, twins);
  });
}

/** Exact numbers that differ from this one and read the same. */
const twinsOf = ({ text, exact }: Words, all: readonly Words[]): readonly string[] =>
  all.flatMap((other) => (other.text === text && other.exact !== exact ? [other.exact] : []));

const inDecimals = (words: Words): Words =>
  words.decimal === undefined ? words : { ...words, text: words.decimal };

const DECIMALS = /(?<=\d\.)\d+/;
/** Thousandths are what a maker measures to, at the finest. */
const FEWEST = 3;

/** An exact number with the fewest decimals by which it differs from all of these. */
function toldFrom(exact: string, others: readonly string[]): string {
  const { length: most } = DECIMALS.exec(exact)?.[0] ?? '';
  for (let decimals = FEWEST; decimals < most; decimals += 1) {
    const short = withDecimals(exact, decimals);
    if (others.every((other) => withDecimals(other, decimals) !== short)) return short;
  }
  return exact;
}

/** Its number rounded to so many decimals, without zeros at the end: `0.26037 in` is `0.2604 in` to 4. */
const withDecimals = (exact: string, decimals: number): string =>
  exact.replace(/\d+\.\d+/, (number) => String(Number(Number(number).toFixed(decimals))));

/** What is marked with a rule at the finest, in inches. */
const FINEST = 64;

/** Standard gravity, m/s²: exact by definition (NIST SP 811, appendix B). A load is told as what would weigh so much. */
const GRAVITY = 9.80665;

/** A number said rougher than it is shown: as it is shown it is told where another one would be said alike. */
const roughly = (
  said: NumberSaid,
  shown: Shown,
  unit: string,
  own: number,
): Pick<Words, 'text' | 'finest'> => ({
  text: withUnit(said(shown, unit, own), unit),
  finest: withUnit(shown.text, unit),
});

interface Words {
  /** What stands in the braces: a cell's name or a length. */
  readonly name: string;
  readonly text: string;
  readonly exact: string;
  /** Of a fraction: in the finest steps; of what is said rougher: as it is shown. */
  readonly finest?: string;
  /** Of a fraction: in decimals. */
  readonly decimal?: string;
}

function wordsOf(
  { state, values }: Sources,
  name: string,
  say: (words: string) => string,
  said?: NumberSaid,
): Words | undefined {
  const at = state.named(name);
  if (at === undefined) return undefined;
  const value = values.value(at);
  const context = readContext({ state }, at.sheet, at);
  const shown = showValue(value, context);
  const { text, exact } = shown;
  if (value.kind === 'text' || value.kind === 'logical') {
    const words = say(value.kind === 'text' ? text : value.logical ? 'yes' : 'no');
    return { name, text: words, exact: words };
  }
  if (value.kind !== 'number') return { name, text, exact: text };
  const unit = unitShown(context);
  if (unit === 'N' || unit === 'kN') {
    const kilograms = { kind: 'number', number: value.number / GRAVITY } as const;
    const isTenths = kilograms.number < 10 && Math.round(kilograms.number * 10) % 10 !== 0;
    const show: Show = { as: 'decimal', decimals: isTenths ? 1 : 0 };
    const told = showValue(kilograms, { ...context, quantity: 'mass', show });
    return { name, text: `${told.text} kg`, exact: `${told.exact ?? told.text} kg` };
  }
  const words = { name, text: withUnit(text, unit), exact: withUnit(exact ?? text, unit) };
  if (styleOf(context).as !== 'fraction') {
    return said === undefined ? words : { ...words, ...roughly(said, shown, unit, value.number) };
  }
  const shownAs = (show: Show): string =>
    withUnit(showValue(value, { ...context, show }).text, unit);
  return {
    ...words,
    finest: shownAs({ as: 'fraction', denominator: FINEST }),
    decimal: shownAs({ as: 'decimal', decimals: FEWEST }),
  };
}

/** Metric lengths of a sentence are said to tenths: rounded further, a limit would be another one. */
const toTenths = (mm: number): Show => ({
  as: 'decimal',
  decimals: Math.round(mm * 10) % 10 === 0 ? 0 : 1,
});

/** A length that stands in the sentence itself, in the units of the workbook. */
function lengthWords({ head }: BookState, word: string, said?: NumberSaid): Words {
  const mm = lengthSaid(word) ?? 0;
  const number = head.units === 'us' ? inOther('length', mm, 'us') : mm;
  const context = (show: Show) => contextOf({ quantity: 'length', show }, head);
  const shownAs = (show: Show): Omit<Words, 'name'> => {
    const shown = showValue({ kind: 'number', number }, context(show));
    const unit = unitShown(context(show));
    const words = {
      text: withUnit(shown.text, unit),
      exact: withUnit(shown.exact ?? shown.text, unit),
    };
    return said === undefined || show.as === 'fraction'
      ? words
      : { ...words, ...roughly(said, shown, unit, number) };
  };
  if (head.units === 'metric') return { name: word, ...shownAs(toTenths(mm)) };
  const words = { name: word, ...shownAs({ as: 'fraction', denominator: FINEST }) };
  const { text: decimal } = shownAs({ as: 'decimal', decimals: FEWEST });
  return { ...words, finest: words.text, decimal };
}

/** Ids of checks that changed their state or sentence. */
export function changedChecks(
  before: readonly CheckState[],
  after: readonly CheckState[],
): readonly string[] {
  if (after.length === before.length && after.every((check, i) => check === before[i])) return [];
  const old = new Map(before.map((check) => [check.id, check]));
  return after
    .filter((check) => {
      const was = old.get(check.id);
      return was === undefined || was.state !== check.state || was.says !== check.says;
    })
    .map((check) => check.id);
}

/** The checks as they are typed: formulas with addresses. */
export function formsOfChecks(state: BookState): readonly CheckDocument[] {
  const written = (formula: Formula): string => writtenText(formula, CHECKS_SHEET, state);
  return state.checks.map((check) => {
    const cells = cellsOfCheck(check);
    const formula = written(formulaOf(check));
    return { ...check, formula, ...(cells === undefined ? {} : { cells: written(cells) }) };
  });
}
