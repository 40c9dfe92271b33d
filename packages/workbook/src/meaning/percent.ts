import type { Node } from '@kerfbook/document';
import { type DateHabits, readDate, writeDate } from '../quantities/dates.ts';
import { PERCENTS } from '../quantities/percent.ts';
import { isBare, type Meaning, type Measure, sameDims } from './measure.ts';

/** Sentences about percentages, each with what to write: a cell holds 15 for 15 %, `15%` in a formula is 0.15. */
export const PERCENT_SLIPS = {
  /** `8%` where percent numbers are taken. */
  literal: (takes: string, share: number) =>
    `${told(share * 100)}% in a formula is ${told(share)}, and ${takes} ${told(share * 100)} for ${told(share * 100)} %. Write ${told(share * 100)}.`,
  /** `0.25` where percent numbers are taken. */
  slight: (takes: string, value: number) =>
    `${takes} ${told(value)} for ${told(value)} %. Write ${told(value * 100)} for ${told(value * 100)} %.`,
  /** `">20%"` looked for among percent numbers. */
  criterion: (sign: string, percent: number) =>
    `${told(percent)}% in a condition is ${told(percent / 100)}, and a percentage is ${told(percent)} for ${told(percent)} %. Write "${sign}${told(percent)}".`,
  /** Multiplied by as it is. */
  factor: (name: string) =>
    `This reckons with ${name} as it is, which is 15 for 15 %. Write ${name}/100.`,
  /** `1 + waste` as a factor. */
  one: (sign: string, name: string) =>
    `1${sign}${name} is ${sign === '+' ? 16 : -14} where ${name} is 15 %. Write 1${sign}${name}/100.`,
} as const;

/** Noise of binary fractions taken off. */
const told = (value: number): string => String(Number(value.toPrecision(12)));

/** A percentage of any kind: its cell holds 15 for 15 %. */
export const isPercentage = ({ dims, tag }: Measure): boolean =>
  sameDims(dims, { percent: 1 }) || tag === 'moisture' || tag === 'humidity';

/** A percentage that nothing else is in. */
export const isPlainPercent = (one: Meaning): one is Measure =>
  one.kind === 'measure' && one.tag === undefined && sameDims(one.dims, { percent: 1 });

/** Whether a percentage went into it as it is: money times percent, or a number times percent. */
export function isHundredfold(one: Meaning): boolean {
  if (one.kind === 'any') return one.hundredfold === true;
  if (one.kind !== 'measure' || isBare(one)) return false;
  const has = one.dims.percent ?? 0;
  return has !== 0 && !sameDims(one.dims, { percent: 1 });
}

/** Whether an argument or a cell of the quantity takes 15 for 15 %. */
export const takesPercent = (quantity: string): boolean =>
  (PERCENTS as ReadonlySet<string>).has(quantity);

/** A reference that may be in brackets, or have a sign. */
export function referenceIn(node: Node): Extract<Node, { kind: 'reference' | 'name' }> | undefined {
  let inner = node;
  while (inner.kind === 'bracket' || (inner.kind === 'sign' && inner.sign !== '%'))
    inner = inner.of;
  return inner.kind === 'reference' || inner.kind === 'name' ? inner : undefined;
}

/** Where a function has ranges with what is looked for in them: from which argument on, one pair or more. */
const CONDITIONS: Readonly<Record<string, number>> = {
  COUNTIF: 0,
  SUMIF: 0,
  AVERAGEIF: 0,
  COUNTIFS: 0,
  SUMIFS: 1,
  MAXIFS: 1,
  MINIFS: 1,
};

/** A day in a condition that is not written year first. */
const DAY_IN_CONDITION = /^([<>=]*)\s*(\d{1,2}[-/.]\d{1,2}[-/.]\d{2,4}|.*[a-z].*)$/i;

/** Both orders of day and month: where a day may be two, both are offered. */
const HABITS: DateHabits = { system: 'us', currency: '' };

/** `">3/14/2026"` looked for among dates; nothing where no day is written. */
function daySlip(condition: string): readonly string[] {
  const [, sign = '', written = ''] = DAY_IN_CONDITION.exec(condition.trim()) ?? [];
  const read = readDate(written, HABITS);
  if (read === undefined || read.kind === 'none') return [];
  const days = read.kind === 'two' ? read.days : [read.days];
  const offered = days.map((one) => `"${sign}${writeDate(one)}"`).join(' or ');
  return [`"${written}" in a condition is no date. Write it year first: ${offered}.`];
}

/** What is to be said of conditions with a percent sign on ranges of percentages, and with a day on dates. */
export function conditionSlips(
  name: string,
  args: readonly Node[],
  meaningOf: (node: Node) => Meaning,
): readonly string[] {
  const from = CONDITIONS[name];
  if (from === undefined) return [];
  return args.flatMap((range, i) => {
    const wanted = args[i + 1];
    if (i < from || (i - from) % 2 !== 0 || wanted?.kind !== 'text') return [];
    const meaning = meaningOf(range);
    if (meaning.kind === 'date') return daySlip(wanted.value);
    const found = /^([<>=]*) *(-?\d+(?:\.\d+)?) *%$/.exec(wanted.value.trim());
    if (found === null) return [];
    const isPercent = meaning.kind === 'measure' && isPercentage(meaning);
    return isPercent ? [PERCENT_SLIPS.criterion(found[1] ?? '', Number(found[2]))] : [];
  });
}
