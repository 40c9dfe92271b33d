import { type CutItem, type Movement, mmFromOwn, ownFromMm } from '@kerfbook/drawing';
import { type OpenWorkbook, readEntry, showValue, withUnit } from '@kerfbook/workbook';

/** A length in the workbook's own unit as the workbook writes lengths. */
export function lengthText({ units, currency }: OpenWorkbook, own: number): string {
  return showValue({ kind: 'number', number: own }, { quantity: 'length', system: units, currency })
    .text;
}

/** The same to 1/32 of an inch: what a fastener travels is less than a sixteenth tells. */
export function fineLengthText({ units, currency }: OpenWorkbook, own: number): string {
  const show = units === 'us' ? ({ as: 'fraction', denominator: 32 } as const) : undefined;
  return showValue(
    { kind: 'number', number: own },
    { quantity: 'length', system: units, currency, ...(show === undefined ? {} : { show }) },
  ).text;
}

/** How far the top moves from the day it is built to each season, mm; where named cells say so. */
export function seasonsOf(book: OpenWorkbook): Movement | undefined {
  const [dry, humid] = ['movement_from_build_dry', 'movement_from_build_humid'].map((name) =>
    numberOf(book, name),
  );
  if (dry === undefined || humid === undefined) return undefined;
  return {
    dry: mmFromOwn(dry, book.units),
    humid: mmFromOwn(humid, book.units),
    format: (mm) => aboutText(book, Number(ownFromMm(mm, book.units).toPrecision(12))),
  };
}

/** Inches to the nearest 1/32, said to be about that where they are not quite; metric as the workbook writes it. */
export function aboutText(book: OpenWorkbook, own: number): string {
  const steps = own * 32;
  if (book.units !== 'us') return lengthText(book, own);
  if (own > 0 && steps < 0.5) return 'less than 1/32';
  const isOnStep = Math.abs(steps - Math.round(steps)) < 1e-6;
  return `${isOnStep ? '' : 'about '}${fineLengthText(book, own)}`;
}

/** Words as they begin a sentence or stand alone. */
export const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);

/** `2 of 4, front right`: which piece of a line it is, counted from 0; nothing of the only one. */
export function whichSaid(
  { count, which }: Pick<CutItem, 'count' | 'which'>,
  piece: number,
): string {
  const place = which?.[piece];
  return count === 1 ? '' : `${piece + 1} of ${count}${place === undefined ? '' : `, ${place}`}`;
}

/** A sentence whose sizes do not break over two lines: 4 at the end of one and 1/2 on the next are two sizes. */
export const unbroken = (says: string): string => says.replaceAll(/(\d) (\d+\/\d)/g, '$1\u00a0$2');

export const lengthUnit = ({ units }: OpenWorkbook): string =>
  units === 'us' ? 'inches' : 'millimeters';

/** A named cell that holds a number, if the workbook has one. */
export function numberOf(book: OpenWorkbook, name: string): number | undefined {
  const value = book.named(name)?.value;
  return value?.kind === 'number' ? value.number : undefined;
}

/** A named cell as it shows, with its unit; undefined where there is none or it is empty. */
export function shownOf(book: OpenWorkbook, name: string): string | undefined {
  const cell = book.named(name);
  if (cell === undefined || cell.value.kind === 'empty') return undefined;
  if (cell.value.kind === 'error') return `in error, ${cell.value.error.word}`;
  return cell.value.kind === 'number' ? withUnit(cell.shown.text, cell.unit) : cell.shown.text;
}

type Quantity = NonNullable<Parameters<typeof readEntry>[1]['quantity']>;

/** The number that a length, or another quantity, is written as. */
export function shownNumber(
  { units, currency }: OpenWorkbook,
  text: string,
  quantity: Quantity = 'length',
): number {
  const read = readEntry(text, { quantity, system: units, currency });
  return read.kind === 'value' && typeof read.value === 'number' ? read.value : Number.NaN;
}

/** Whether numbers as they are written add up to their sum as it is written: each is rounded by itself. */
export function addUp(
  book: OpenWorkbook,
  quantity: Quantity,
  parts: readonly string[],
  sum: string,
): boolean {
  const numbers = [...parts, sum].map((text) => shownNumber(book, text, quantity));
  const total = numbers.pop() ?? 0;
  return Math.abs(numbers.reduce((all, one) => all + one, 0) - total) < 1e-6 * Math.max(1, total);
}

/** Facts of named cells as lines `what: how much`; those the workbook does not have are left out. */
export function facts(
  book: OpenWorkbook,
  wanted: readonly (readonly [name: string, says: string])[],
): readonly (readonly [says: string, shown: string])[] {
  return wanted.flatMap(([name, says]) => {
    const shown = shownOf(book, name);
    return shown === undefined ? [] : [[says, shown] as const];
  });
}

/** What the wide panel that moves is called there: a bench has a seat. */
export const panelOf = (book: OpenWorkbook): 'top' | 'seat' =>
  book.named('seat_width') === undefined ? 'top' : 'seat';

/** Lines of a sheet with the panel called by that. */
export const inItsWords = <T extends string>(
  panel: 'top' | 'seat',
  lines: readonly (readonly [says: string, shown: T])[],
): readonly (readonly [says: string, shown: T])[] =>
  lines.map(([says, shown]) => [
    says.replaceAll(/\btop\b/g, panel).replaceAll(/\bTop\b/g, capital(panel)),
    shown,
  ]);
