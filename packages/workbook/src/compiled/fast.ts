import type { BinarySign, Node } from '@kerfbook/document';
import { AGGREGATES, type Aggregate, joinedNumbers } from './aggregates.ts';
import { PLAIN } from './functions.ts';
import { added, comparedNumbers, subtracted } from './values.ts';

/**
 * A part of a formula worked out with numbers alone. Where anything on the way is no number, or is too
 * large, it comes to NaN, which no cell holds: then the part is worked out with all there may be.
 */
export type Fast = (numbers: Float64Array) => number;

/** Where the numbers of a part are; nothing for what is not a number's place. */
export interface Slots {
  constant(value: number): number;
  /** The slot of a cell or a name; nothing where it is no single cell. */
  slotOf(node: Node): number | undefined;
  /** The slots of a range that stands by itself. */
  cellsOf(node: Node): Int32Array | undefined;
  /** The node that keeps what a function comes to over a range; nothing where none does. */
  sharedOf(name: string, node: Node): number | undefined;
}

type Part = { readonly slot: number } | { readonly work: Fast };

/**
 * A whole formula, or a part of one, with numbers alone.
 *
 * @returns nothing where it is of another kind: words, yes or no, functions of the trade
 */
export function fastOf(node: Node, slots: Slots): Fast | undefined {
  const part = partOf(node, slots);
  return part === undefined ? undefined : workOf(part);
}

function partOf(node: Node, slots: Slots): Part | undefined {
  switch (node.kind) {
    case 'number':
      return Number.isFinite(node.value) ? { slot: slots.constant(node.value) } : undefined;
    case 'reference':
    case 'name': {
      const slot = slots.slotOf(node);
      return slot === undefined ? undefined : { slot };
    }
    case 'bracket':
      return partOf(node.of, slots);
    case 'sign': {
      const of = partOf(node.of, slots);
      if (of === undefined || node.sign === '+') return of;
      const work = workOf(of);
      return {
        work: node.sign === '-' ? (n) => 0 - work(n) : (n) => work(n) / 100,
      };
    }
    case 'joined': {
      const join = JOIN[node.sign];
      const left = join && partOf(node.left, slots);
      const right = left && partOf(node.right, slots);
      return join && left && right && { work: join(left, right) };
    }
    case 'call':
      return callOf(node.name, node.args, slots);
    default:
      return undefined;
  }
}

function workOf(part: Part): Fast {
  if ('work' in part) return part.work;
  const { slot } = part;
  return (n) => n[slot] as number;
}

/** A number, or NaN where it is too large to be one. */
const bounded = (value: number): number => (value - value === 0 ? value + 0 : Number.NaN);

/** The same work for each way in which its two sides come: most are single cells. */
const joins =
  (
    both: (a: number, b: number) => Fast,
    left: (a: number, b: Fast) => Fast,
    right: (a: Fast, b: number) => Fast,
    neither: (a: Fast, b: Fast) => Fast,
  ) =>
  (a: Part, b: Part): Fast => {
    if ('slot' in a) return 'slot' in b ? both(a.slot, b.slot) : left(a.slot, b.work);
    return 'slot' in b ? right(a.work, b.slot) : neither(a.work, b.work);
  };

const divided = (a: number, b: number): number => (b === 0 ? Number.NaN : bounded(a / b));

// Each is written out: one function that is handed the sign is many times slower.
const JOIN: Partial<Record<BinarySign, (a: Part, b: Part) => Fast>> = {
  '+': joins(
    (a, b) => (n) => bounded(added(n[a] as number, n[b] as number)),
    (a, b) => (n) => bounded(added(n[a] as number, b(n))),
    (a, b) => (n) => bounded(added(a(n), n[b] as number)),
    (a, b) => (n) => bounded(added(a(n), b(n))),
  ),
  '-': joins(
    (a, b) => (n) => bounded(subtracted(n[a] as number, n[b] as number)),
    (a, b) => (n) => bounded(subtracted(n[a] as number, b(n))),
    (a, b) => (n) => bounded(subtracted(a(n), n[b] as number)),
    (a, b) => (n) => bounded(subtracted(a(n), b(n))),
  ),
  '*': joins(
    (a, b) => (n) => bounded((n[a] as number) * (n[b] as number)),
    (a, b) => (n) => bounded((n[a] as number) * b(n)),
    (a, b) => (n) => bounded(a(n) * (n[b] as number)),
    (a, b) => (n) => bounded(a(n) * b(n)),
  ),
  '/': joins(
    (a, b) => (n) => divided(n[a] as number, n[b] as number),
    (a, b) => (n) => divided(n[a] as number, b(n)),
    (a, b) => (n) => divided(a(n), n[b] as number),
    (a, b) => (n) => divided(a(n), b(n)),
  ),
  '^': joins(
    (a, b) => (n) => powered(n[a] as number, n[b] as number),
    (a, b) => (n) => powered(n[a] as number, b(n)),
    (a, b) => (n) => powered(a(n), n[b] as number),
    (a, b) => (n) => powered(a(n), b(n)),
  ),
};

/** Whatever it is that is no number, to the power of nothing it is 1: not here. */
const powered = (a: number, b: number): number =>
  Number.isNaN(a) || Number.isNaN(b) ? Number.NaN : bounded(a ** b);

function callOf(name: string, args: readonly Node[], slots: Slots): Part | undefined {
  if (name === 'IF') return ifOf(args, slots);
  const aggregate = AGGREGATES.get(name);
  if (aggregate !== undefined) return aggregateOf(name, aggregate, args, slots);
  const plain = PLAIN.get(name);
  if (
    plain?.takes.every(
      ({ as, least, most, above, below, whole, optional }) =>
        as === 'number' &&
        [least, most, above, below, whole, optional].every((bound) => bound === undefined),
    ) !== true
  )
    return undefined;
  if (plain.spread) return undefined;
  if (plain.again !== undefined || args.length === 0 || args.length > plain.takes.length)
    return undefined;
  const rest = plain.takes.slice(args.length).map(({ leftOut }) => leftOut);
  if (rest.includes(undefined)) return undefined;
  const works = worksOf(args, slots);
  if (works === undefined) return undefined;
  const run = plain.run as (...numbers: number[]) => unknown;
  const leftOut = rest as number[];
  const [first, second] = works;
  if (first !== undefined && works.length === 1 && leftOut.length === 0) {
    return { work: (n) => answered(run, first(n)) };
  }
  if (first !== undefined && second !== undefined && works.length === 2 && leftOut.length === 0) {
    return {
      work: (n) => {
        const [a, b] = [first(n), second(n)];
        return Number.isNaN(a) || Number.isNaN(b) ? Number.NaN : numberIn(run(a, b));
      },
    };
  }
  return {
    work: (n) => {
      const given: number[] = [];
      for (const work of works) {
        const value = work(n);
        if (Number.isNaN(value)) return Number.NaN;
        given.push(value);
      }
      return numberIn(run(...given, ...leftOut));
    },
  };
}

const numberIn = (value: unknown): number =>
  typeof value === 'number' ? bounded(value) : Number.NaN;
const answered = (run: (value: number) => unknown, value: number): number =>
  Number.isNaN(value) ? Number.NaN : numberIn(run(value));

function worksOf(args: readonly Node[], slots: Slots): readonly Fast[] | undefined {
  const works: Fast[] = [];
  for (const arg of args) {
    const part = partOf(arg, slots);
    if (part === undefined) return undefined;
    works.push(workOf(part));
  }
  return works;
}

/** IF over a comparison of numbers. */
function ifOf([condition, then, otherwise]: readonly Node[], slots: Slots): Part | undefined {
  if (condition?.kind !== 'joined' || then === undefined || otherwise === undefined) {
    return undefined;
  }
  const choose = CHOICE[condition.sign];
  const works = choose && worksOf([condition.left, condition.right, then, otherwise], slots);
  if (works === undefined || choose === undefined) return undefined;
  const [left, right, yes, no] = works as [Fast, Fast, Fast, Fast];
  return { work: choose(left, right, yes, no) };
}

type Choice = (left: Fast, right: Fast, yes: Fast, no: Fast) => Fast;

const either = (a: number, b: number): boolean => Number.isNaN(a) || Number.isNaN(b);

// Written out one by one, as the signs above are.
const CHOICE: Partial<Record<BinarySign, Choice>> = {
  '=': (left, right, yes, no) => (n) => {
    const a = left(n);
    const b = right(n);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) === 0 ? yes(n) : no(n);
  },
  '<>': (left, right, yes, no) => (n) => {
    const a = left(n);
    const b = right(n);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) !== 0 ? yes(n) : no(n);
  },
  '<': (left, right, yes, no) => (n) => {
    const a = left(n);
    const b = right(n);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) < 0 ? yes(n) : no(n);
  },
  '>': (left, right, yes, no) => (n) => {
    const a = left(n);
    const b = right(n);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) > 0 ? yes(n) : no(n);
  },
  '<=': (left, right, yes, no) => (n) => {
    const a = left(n);
    const b = right(n);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) <= 0 ? yes(n) : no(n);
  },
  '>=': (left, right, yes, no) => (n) => {
    const a = left(n);
    const b = right(n);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) >= 0 ? yes(n) : no(n);
  },
};

/** Most of all that goes over ranges is a sum. */
function summed(n: Float64Array, cells: Int32Array): number {
  let sum = 0;
  for (let i = 0; i < cells.length; i += 1) sum = added(sum, n[cells[i] as number] as number);
  // A sum over one that is no number is none either.
  return bounded(added(sum, 0));
}

/** Functions over many numbers; COUNT and its like look at what is no number too. */
function aggregateOf(
  name: string,
  aggregate: Aggregate,
  args: readonly Node[],
  slots: Slots,
): Part | undefined {
  const { from, join, numeric, last } = aggregate;
  if (!numeric || args.length === 0) return undefined;
  const parts: ((n: Float64Array, all: number) => number)[] = [];
  for (const arg of args) {
    const shared = slots.sharedOf(name, arg);
    if (shared !== undefined) {
      parts.push((n, all) => join(n[shared] as number, all));
      continue;
    }
    const cells = slots.cellsOf(arg);
    if (cells !== undefined && join === added && args.length === 1) {
      return { work: (n) => summed(n, cells) };
    }
    if (cells !== undefined) {
      parts.push((n, all) => join(joinedNumbers(aggregate, n, cells), all));
      continue;
    }
    const part = partOf(arg, slots);
    if (part === undefined) return undefined;
    const work = workOf(part);
    parts.push((n, all) => join(all, work(n)));
  }
  const [only] = parts;
  const end = (all: number): number =>
    last === undefined || Number.isNaN(all) ? bounded(all) : bounded(last(all));
  if (parts.length === 1 && only !== undefined) return { work: (n) => end(only(n, from)) };
  return {
    work: (n) => {
      let all = from;
      for (const part of parts) all = part(n, all);
      return end(all);
    },
  };
}
