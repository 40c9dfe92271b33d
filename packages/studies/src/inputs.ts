import type { Edit, Scalar } from '@kerfbook/document';
import { OWN_UNITS } from '@kerfbook/wood';
import {
  allowProblem,
  type CellView,
  type OpenWorkbook,
  pullOf,
  type ReadContext,
  readEntry,
} from '@kerfbook/workbook';
import { StudyFault } from './fault.ts';

/** What a study needs of an open workbook; it changes nothing in it. */
export type StudyBook = Pick<
  OpenWorkbook,
  | 'units'
  | 'currency'
  | 'named'
  | 'cell'
  | 'value'
  | 'evaluate'
  | 'checkForms'
  | 'tables'
  | 'sheet'
  | 'document'
  | 'idsAt'
>;

/** An input and what it becomes, in the workbook's own units and in this order. */
export interface Axis {
  /** Its cell, which holds no formula. */
  readonly cell: CellView;
  /** In the order in which they are gone through. */
  readonly values: readonly Scalar[];
}

/** A number that may be anything between two, in the workbook's own units. */
export interface Span {
  /** Its cell, which holds no formula. */
  readonly cell: CellView;
  /** Its least value. */
  readonly from: number;
  /** Its greatest value. */
  readonly to: number;
  /** What it is stepped by; left out where it goes on without steps. */
  readonly step?: number;
}

/** Values that one input may be given. */
export const MOST_VALUES = 10_000;

const FROM_TO = '..';
/** The same with colons, as many write it on a command line: `60:108:6`. */
const COLONS = /^([^:,]+):([^:,]+):([^:,]+)$/;

/**
 * What to type into an input so that it holds just this value: a number with the workbook's own unit, whatever unit the cell
 * shows.
 */
export function entryFor(
  { units }: Pick<StudyBook, 'units'>,
  { quantity }: CellView,
  value: Scalar,
): string {
  if (typeof value === 'string') return value;
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  const unit = quantity === undefined ? '' : OWN_UNITS[quantity][units];
  return unit === '' ? String(value) : `${value} ${unit}`;
}

/** The edit that gives inputs their values, in one step of undo. */
export function takeEdit(
  book: Pick<StudyBook, 'units'>,
  inputs: readonly { readonly cell: CellView; readonly value: Scalar }[],
): Edit {
  return {
    do: 'batch',
    edits: inputs.map(({ cell, value }) => ({
      do: 'enter' as const,
      sheet: cell.at.sheet,
      cells: [{ row: cell.at.row, column: cell.at.column, text: entryFor(book, cell, value) }],
    })),
  };
}

/** What an entry in a cell is read by, and its value shown by. */
export const contextOf = (
  { units, currency }: Pick<StudyBook, 'units' | 'currency'>,
  { quantity, show }: CellView,
): ReadContext => ({
  system: units,
  currency,
  ...(quantity === undefined ? {} : { quantity }),
  ...(show === undefined ? {} : { show }),
});

/**
 * The cell that bears a name.
 *
 * @throws StudyFault where none does
 */
export function knownCell(book: StudyBook, name: string): CellView {
  const cell = book.named(name);
  if (cell !== undefined) return cell;
  // The engine knows which name is near; asked for this one, it says so.
  const asked = book.evaluate(`=${name}`);
  throw new StudyFault(
    asked.kind === 'error' && asked.error.word === '#NAME?'
      ? asked.error.says
      : `There is no cell called ${name}.`,
  );
}

/**
 * The input that bears a name.
 *
 * @throws StudyFault where no cell does, or its value is calculated
 */
export function inputCell(book: StudyBook, name: string): CellView {
  const cell = knownCell(book, name);
  if (cell.formula === undefined) return cell;
  throw new StudyFault(
    `${cell.name ?? name} is calculated. A study changes cells that hold a value: choose one of those that it rests on.`,
  );
}

/** Clauses of what a study is over, each with its name and the rest: `top_length 60..108/6; species oak, ash`. */
export function clausesOf(text: string): readonly (readonly [name: string, rest: string])[] {
  return text
    .split(';')
    .map((clause) => clause.trim())
    .filter((clause) => clause !== '')
    .map((clause) => {
      const [, name = clause, rest = ''] = /^([^\s=]+)\s*=?\s*(.*)$/su.exec(clause) ?? [];
      return [name, rest];
    });
}

/**
 * What one input becomes: a list of entries with commas between, or `from..to/step`, each as it is typed into the cell:
 * `6'..8'/3`, `1/2..3/4/1/16`, `white oak, black walnut`; a range may be written with colons, `60:96:6`.
 *
 * @throws StudyFault with a sentence, also for values that the cell does not take
 */
export function axisOf(book: StudyBook, name: string, text: string): Axis {
  const cell = inputCell(book, name);
  const range = text.replace(COLONS, '$1..$2 /$3');
  const values = range.includes(FROM_TO) ? stepped(book, cell, range) : listed(book, cell, text);
  for (const value of values) takes(book, cell, value);
  return { cell, values };
}

/**
 * A number between two, `from..to` or `from..to/step`; without them, the range and the steps of its cell.
 *
 * @throws StudyFault with a sentence
 */
export function spanOf(book: StudyBook, name: string, text: string): Span {
  const cell = inputCell(book, name);
  const called = cell.name ?? name;
  const pull = pullOf(cell, contextOf(book, cell));
  const usual =
    pull === undefined
      ? undefined
      : Math.abs(pull.own(pull.value + pull.step) - pull.own(pull.value));
  const words = text.trim();
  if (words === '') {
    if (pull?.low === undefined || pull.high === undefined) {
      throw new StudyFault(
        `${called} has no least and most of its own. Say between which, such as ${called} 10..20.`,
      );
    }
    return span(book, cell, pull.own(pull.low), pull.own(pull.high), usual);
  }
  const at = words.indexOf(FROM_TO);
  const hasStep = at >= 0 && words.slice(at).includes('/');
  if (hasStep) {
    const read = stepsOrNone(book, cell, words);
    if (read !== undefined) return span(book, cell, read.from, read.to, read.step);
  }
  const ends = at < 0 ? [] : [words.slice(0, at), words.slice(at + FROM_TO.length)];
  const [from, to] = ends.map((end) => numberIn(book, cell, end));
  if (from === undefined || to === undefined) {
    throw new StudyFault(
      `"${words}" is no range of ${called}. Write it as from..to, such as 10..20.`,
    );
  }
  return span(book, cell, from, to, usual);
}

function span(
  book: StudyBook,
  cell: CellView,
  one: number,
  other: number,
  step: number | undefined,
): Span {
  const [from, to] = one <= other ? [one, other] : [other, one];
  for (const end of [from, to]) takes(book, cell, end);
  if (!(to > from)) {
    throw new StudyFault(
      `${cell.name ?? cell.address} has no room between its ends. Give it two numbers.`,
    );
  }
  return { cell, from, to, ...(step === undefined || step <= 0 ? {} : { step }) };
}

/**
 * Entries between commas. Where a space follows a comma, such commas alone part them, so that one within a number is asked
 * about; else each does but one that parts three digits.
 */
export function wordsOf(text: string): readonly string[] {
  const between = /,\s/.test(text) ? /,\s+/ : /,(?!\d{3}(?!\d))/;
  return text.split(between).map((word) => word.trim());
}

/** A list of entries. */
function listed(book: StudyBook, cell: CellView, text: string): readonly Scalar[] {
  const words = wordsOf(text);
  if (words.some((word) => word === '')) {
    throw new StudyFault(
      `${cell.name ?? cell.address} has nothing to become. Write values with commas between, or from..to/step.`,
    );
  }
  return words.map((word) => scalarIn(book, cell, word));
}

/**
 * What an entry into a cell comes to.
 *
 * @throws StudyFault where it cannot be read, or is a formula
 */
export function scalarIn(book: StudyBook, cell: CellView, text: string): Scalar {
  const called = cell.name ?? cell.address;
  const read = readEntry(text, contextOf(book, cell));
  switch (read.kind) {
    case 'value':
      return read.value;
    case 'unread':
      throw new StudyFault(`${called}: ${read.says}`);
    case 'formula':
      throw new StudyFault(`${called}: "${text}" is a formula. A study gives its inputs values.`);
    case 'empty':
      throw new StudyFault(`${called} has nothing to become.`);
  }
}

/** @throws StudyFault where the cell does not take the value */
export function takes(book: StudyBook, cell: CellView, value: Scalar): void {
  if (cell.allow === undefined) return;
  const problem = allowProblem(value, cell.allow, contextOf(book, cell));
  if (problem !== undefined) throw new StudyFault(`${cell.name ?? cell.address}: ${problem}`);
}

function stepped(book: StudyBook, cell: CellView, text: string): readonly number[] {
  const { from, to, step } = stepsIn(book, cell, text);
  const count = Math.floor(Math.abs(to - from) / step + 1e-9) + 1;
  if (count > MOST_VALUES) {
    throw new StudyFault(
      `${cell.name ?? ''} ${text} asks for ${count} numbers; ${MOST_VALUES} is the most. Take a larger step.`,
    );
  }
  const way = to < from ? -step : step;
  // A tenth that is added again and again leaves noise in the last digit.
  return Array.from({ length: count }, (_, i) => Number((from + i * way).toPrecision(15)));
}

interface Steps {
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

function stepsIn(book: StudyBook, cell: CellView, text: string): Steps {
  const read = stepsOrNone(book, cell, text);
  if (read !== undefined) return read;
  throw new StudyFault(
    `"${text}" is no range of ${cell.name ?? cell.address}. Write it as from..to/step, such as 60..96/6.`,
  );
}

function stepsOrNone(book: StudyBook, cell: CellView, text: string): Steps | undefined {
  const at = text.indexOf(FROM_TO);
  const from = numberIn(book, cell, text.slice(0, at));
  const rest = text.slice(at + FROM_TO.length);
  const read = splits(rest).flatMap(([end, stride]) => {
    const [to, step] = [numberIn(book, cell, end), numberIn(book, cell, stride)];
    return to === undefined || step === undefined ? [] : [{ to, step }];
  });
  const [only, ...more] = read;
  if (from === undefined || only === undefined) return undefined;
  if (more.length > 0) {
    throw new StudyFault(
      `"${rest}" can be read in more ways than one. Put a space before the / of the step.`,
    );
  }
  if (only.step <= 0) throw new StudyFault(`The step in "${text}" has to be more than 0.`);
  return { from, ...only };
}

/** Where the step may begin: at any `/`, or at the one that has a space before it. */
function splits(text: string): readonly (readonly [string, string])[] {
  const spaced = text.indexOf(' /');
  if (spaced >= 0) return [[text.slice(0, spaced), text.slice(spaced + 2)]];
  return [...text.matchAll(/\//g)]
    .map(({ index }) => [text.slice(0, index), text.slice(index + 1)] as const)
    .filter((both) => !both.some((one) => OVER_ONE.test(one)));
}

/** Nobody writes 90/1: in `0..90/1/64` the step is 1/64. */
const OVER_ONE = /\/\s*1(?![\d/])/;

function numberIn(book: StudyBook, cell: CellView, text: string): number | undefined {
  const read = readEntry(text, contextOf(book, cell));
  if (read.kind === 'unread' && read.choices !== undefined) {
    throw new StudyFault(`${cell.name ?? cell.address}: ${read.says}`);
  }
  return read.kind === 'value' && typeof read.value === 'number' ? read.value : undefined;
}
