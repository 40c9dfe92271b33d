import type { Node } from '@kerfbook/document';
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
