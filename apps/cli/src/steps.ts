import { allowProblem, type CellView, readEntry, type Workbook } from '@kerfbook/workbook';
import { Misuse } from './arguments.ts';
import { knownName } from './entries.ts';

/** An input of a sweep and the numbers it is given, in the workbook's own units. */
export interface Swept {
  readonly name: string;
  readonly cell: CellView;
  readonly values: readonly number[];
}

/** Numbers that one input may be given. */
const MOST = 10_000;
const FROM_TO = '..';

/** Whether `--set` asks for several numbers: `top_length=48..96/6`. */
export const isSwept = (word: string): boolean =>
  /^[^=]*=(?!\s*[='])[^/]*(?:\/[^/]*)?\.\..*\//.test(word);

/**
 * Reads `name=from..to/step`, each of the three as it is typed into the cell: `6'..8'/3`, `1/2..3/4/1/16`.
 *
 * @throws Misuse with a sentence, also for numbers that the cell does not take
 */
export function sweptOf(book: Workbook, word: string): Swept {
  const sign = word.indexOf('=');
  const name = knownName(book, word.slice(0, sign).trim());
  const cell = book.named(name);
  if (cell === undefined) throw new Misuse(`There is no cell called ${name}.`);
  if (cell.formula !== undefined) {
    throw new Misuse(`${name} holds a formula; a sweep changes cells that hold a number.`);
  }
  const { from, to, step } = stepsIn(book, cell, word);
  const count = Math.floor(Math.abs(to - from) / step + 1e-9) + 1;
  if (count > MOST) {
    throw new Misuse(`${word} asks for ${count} numbers; ${MOST} is the most. Take a larger step.`);
  }
  const way = to < from ? -step : step;
  // A tenth that is added again and again leaves noise in the last digit.
  const values = Array.from({ length: count }, (_, i) => Number((from + i * way).toPrecision(15)));
  for (const value of values) {
    const context = contextOf(book, cell);
    const problem = cell.allow === undefined ? undefined : allowProblem(value, cell.allow, context);
    if (problem !== undefined) throw new Misuse(`${name}: ${problem}`);
  }
  return { name, cell, values };
}

interface Steps {
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

function stepsIn(book: Workbook, cell: CellView, word: string): Steps {
  const entry = word.slice(word.indexOf('=') + 1);
  const at = entry.indexOf(FROM_TO);
  const from = numberIn(book, cell, entry.slice(0, at));
  const rest = entry.slice(at + FROM_TO.length);
  const read = splits(rest).flatMap(([end, stride]) => {
    const [to, step] = [numberIn(book, cell, end), numberIn(book, cell, stride)];
    return to === undefined || step === undefined ? [] : [{ to, step }];
  });
  const [only, ...more] = read;
  if (from === undefined || only === undefined) {
    throw new Misuse(`--set takes name=entry or name=from..to/step; it got "${word}".`);
  }
  if (more.length > 0) {
    throw new Misuse(
      `"${rest}" can be read in more ways than one. Put a space before the / of the step.`,
    );
  }
  if (only.step <= 0) throw new Misuse(`The step in "${word}" has to be more than 0.`);
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

function numberIn(book: Workbook, cell: CellView, text: string): number | undefined {
  const read = readEntry(text, contextOf(book, cell));
  if (read.kind === 'unread' && read.choices !== undefined) {
    throw new Misuse(`${cell.name ?? cell.address}: ${read.says}`);
  }
  return read.kind === 'value' && typeof read.value === 'number' ? read.value : undefined;
}

/** What an entry in a cell is read by, and its value shown by. */
export const contextOf = ({ units, currency }: Workbook, { quantity, show }: CellView) => ({
  system: units,
  currency,
  ...(quantity === undefined ? {} : { quantity }),
  ...(show === undefined ? {} : { show }),
});
