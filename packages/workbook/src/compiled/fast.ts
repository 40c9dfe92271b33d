import type { BinarySign, Node } from '@kerfbook/document';
import type { FunctionDescription, UnitSystem } from '@kerfbook/wood';
import { AGGREGATES, type Aggregate, joinedNumbers } from './aggregates.ts';
import { PLAIN } from './functions.ts';
import { ourCall } from './our-call.ts';
import { added, comparedNumbers, subtracted } from './values.ts';

/**
 * A part of a formula worked out with numbers alone, which lie where `places` say from `at` on. Where
 * anything on the way is no number, or is too large, it comes to NaN, which no cell holds: then the part is
 * worked out with all there may be. Formulas that say the same of other cells have one such function
 * together: in a column that is filled down, all of them.
 */
export type FastRun = (numbers: Float64Array, places: Int32Array, at: number) => number;

/** What a formula does, and with the numbers of which nodes. */
export interface Fast {
  readonly run: FastRun;
  readonly places: readonly number[];
}

/** Where the numbers of a part are; nothing for what is not a number's place. */
export interface Slots {
  readonly system: UnitSystem;
  constant(value: number): number;
  /** The slot of a cell or a name; nothing where it is no single cell. */
  slotOf(node: Node): number | undefined;
  /** The slots of a range that stands by itself. */
  cellsOf(node: Node): Int32Array | undefined;
  /** The node that keeps what a function comes to over a range; nothing where none does. */
  sharedOf(name: string, node: Node): number | undefined;
  /** A function of ours; nothing where a name is none. */
  oursOf(name: string): FunctionDescription | undefined;
}

/** What is done, by how it is written with all that is named left out. */
export type FastRuns = Map<string, FastRun>;

/** What is done to numbers; `at` counts among the places of the whole formula. */
type Part =
  | { readonly kind: 'number'; readonly at: number }
  | { readonly kind: 'cells'; readonly at: number; readonly count: number }
  | { readonly kind: 'kept'; readonly at: number }
  | { readonly kind: 'sign'; readonly sign: '-' | '%'; readonly of: Part }
  | {
      readonly kind: 'joined';
      readonly sign: BinarySign;
      readonly left: Part;
      readonly right: Part;
    }
  | { readonly kind: 'if'; readonly sign: BinarySign; readonly parts: readonly Part[] }
  | { readonly kind: 'call'; readonly call: Call; readonly parts: readonly Part[] }
  | { readonly kind: 'over'; readonly name: string; readonly parts: readonly Part[] };

/** A function of so many numbers; what it answers need not be one. */
type Call = (...numbers: number[]) => unknown;

/**
 * A whole formula, or a part of one, with numbers alone.
 *
 * @returns nothing where it is of another kind: words, yes or no, functions of the trade
 */
export function fastOf(node: Node, slots: Slots, runs: FastRuns): Fast | undefined {
  const reading = new Reading(slots);
  const part = reading.part(node);
  if (part === undefined) return undefined;
  let run = runs.get(reading.written);
  if (run === undefined) {
    run = runOf(part);
    runs.set(reading.written, run);
  }
  return { run, places: reading.places };
}

/** Reads a formula: what is done in it, how that is written, and the places of its numbers in turn. */
class Reading {
  readonly places: number[] = [];
  written = '';
  readonly #slots: Slots;

  constructor(slots: Slots) {
    this.#slots = slots;
  }

  part(node: Node): Part | undefined {
    switch (node.kind) {
      case 'number':
        return Number.isFinite(node.value)
          ? this.#number(this.#slots.constant(node.value))
          : undefined;
      case 'reference':
      case 'name':
        return this.#number(this.#slots.slotOf(node));
      case 'bracket':
        return this.part(node.of);
      case 'sign': {
        if (node.sign === '+') return this.part(node.of);
        this.written += node.sign === '-' ? '~' : '%';
        const of = this.part(node.of);
        return of && { kind: 'sign', sign: node.sign, of };
      }
      case 'joined': {
        if (JOIN[node.sign] === undefined) return undefined;
        this.written += node.sign;
        const left = this.part(node.left);
        const right = left && this.part(node.right);
        return left && right && { kind: 'joined', sign: node.sign, left, right };
      }
      case 'call':
        return this.#call(node.name, node.args);
      default:
        return undefined;
    }
  }

  #number(slot: number | undefined): Part | undefined {
    if (slot === undefined) return undefined;
    this.written += 'n';
    return { kind: 'number', at: this.#place(slot) };
  }

  #place(slot: number): number {
    this.places.push(slot);
    return this.places.length - 1;
  }

  #call(name: string, args: readonly Node[]): Part | undefined {
    if (name === 'IF') return this.#if(args);
    const aggregate = AGGREGATES.get(name);
    if (aggregate !== undefined) return this.#over(name, aggregate, args);
    const call = this.#callee(name, args.length);
    if (call === undefined) return undefined;
    this.written += `${name}(${args.length} `;
    const parts = this.#parts(args);
    return parts && { kind: 'call', call, parts };
  }

  #callee(name: string, count: number): Call | undefined {
    const ours = this.#slots.oursOf(name);
    return ours === undefined
      ? standardCall(name, count)
      : ourCall(ours, count, this.#slots.system);
  }

  #parts(args: readonly Node[]): readonly Part[] | undefined {
    const parts: Part[] = [];
    for (const arg of args) {
      const part = this.part(arg);
      if (part === undefined) return undefined;
      parts.push(part);
    }
    return parts;
  }

  /** IF over a comparison of numbers. */
  #if([condition, then, otherwise]: readonly Node[]): Part | undefined {
    if (condition?.kind !== 'joined' || then === undefined || otherwise === undefined) {
      return undefined;
    }
    const { sign, left, right } = condition;
    if (CHOICE[sign] === undefined) return undefined;
    this.written += `?${sign} `;
    const parts = this.#parts([left, right, then, otherwise]);
    return parts && { kind: 'if', sign, parts };
  }

  /** Functions over many numbers; COUNT and its like look at what is no number too. */
  #over(name: string, { numeric }: Aggregate, args: readonly Node[]): Part | undefined {
    if (!numeric || args.length === 0) return undefined;
    this.written += `${name}(${args.length} `;
    const parts: Part[] = [];
    for (const arg of args) {
      const part = this.#given(name, arg);
      if (part === undefined) return undefined;
      parts.push(part);
    }
    return { kind: 'over', name, parts };
  }

  #given(name: string, arg: Node): Part | undefined {
    const kept = this.#slots.sharedOf(name, arg);
    if (kept !== undefined) {
      this.written += 'k';
      return { kind: 'kept', at: this.#place(kept) };
    }
    const cells = this.#slots.cellsOf(arg);
    if (cells === undefined) return this.part(arg);
    const at = this.places.length;
    for (const cell of cells) this.places.push(cell);
    this.written += `:${cells.length} `;
    return { kind: 'cells', at, count: cells.length };
  }
}

/** A standard function of so many numbers, of any size, and of nothing else. */
function standardCall(name: string, count: number): Call | undefined {
  const plain = PLAIN.get(name);
  if (plain === undefined || plain.spread || plain.changes) return undefined;
  if (plain.again !== undefined || plain.size !== undefined) return undefined;
  if (count === 0 || count > plain.takes.length) return undefined;
  const leftOut = plain.takes.slice(count).map((take) => take.leftOut);
  if (leftOut.includes(undefined)) return undefined;
  const fits = plain.takes.every(
    ({ as, least, most, above, below, whole, optional }) =>
      as === 'number' &&
      [least, most, above, below, whole, optional].every((bound) => bound === undefined),
  );
  if (!fits) return undefined;
  const run = plain.run as Call;
  return leftOut.length === 0 ? run : (...given) => run(...given, ...(leftOut as number[]));
}

function runOf(part: Part): FastRun {
  switch (part.kind) {
    case 'number':
    case 'kept': {
      const { at: place } = part;
      return (n, s, at) => n[s[at + place] as number] as number;
    }
    case 'sign': {
      const work = runOf(part.of);
      return part.sign === '-'
        ? (n, s, at) => 0 - work(n, s, at)
        : (n, s, at) => work(n, s, at) / 100;
    }
    case 'joined':
      return part.left.kind === 'joined'
        ? chainOf(part)
        : (JOIN[part.sign] as Join)(part.left, part.right);
    case 'if': {
      const [left, right, yes, no] = part.parts.map(runOf) as [FastRun, FastRun, FastRun, FastRun];
      return (CHOICE[part.sign] as Choice)(left, right, yes, no);
    }
    case 'call':
      return callOf(part.call, part.parts.map(runOf));
    case 'over':
      return overOf(AGGREGATES.get(part.name) as Aggregate, part.parts);
    case 'cells':
      throw new RangeError('cells stand by themselves');
  }
}

/** A number, or NaN where it is too large to be one. */
const bounded = (value: number): number => (value - value === 0 ? value + 0 : Number.NaN);

type Join = (left: Part, right: Part) => FastRun;

/** The same work for each way in which its two sides come: most are single cells. */
const joins =
  (
    both: (a: number, b: number) => FastRun,
    left: (a: number, b: FastRun) => FastRun,
    right: (a: FastRun, b: number) => FastRun,
    neither: (a: FastRun, b: FastRun) => FastRun,
  ): Join =>
  (a, b) => {
    if (a.kind === 'number') {
      return b.kind === 'number' ? both(a.at, b.at) : left(a.at, runOf(b));
    }
    return b.kind === 'number' ? right(runOf(a), b.at) : neither(runOf(a), runOf(b));
  };

const divided = (a: number, b: number): number => (b === 0 ? Number.NaN : bounded(a / b));

/** Whatever it is that is no number, to the power of nothing it is 1: not here. */
const powered = (a: number, b: number): number =>
  Number.isNaN(a) || Number.isNaN(b) ? Number.NaN : bounded(a ** b);

// Each is written out: one function that is handed the sign is many times slower.
const JOIN: Partial<Record<BinarySign, Join>> = {
  '+': joins(
    (a, b) => (n, s, i) =>
      bounded(added(n[s[i + a] as number] as number, n[s[i + b] as number] as number)),
    (a, b) => (n, s, i) => bounded(added(n[s[i + a] as number] as number, b(n, s, i))),
    (a, b) => (n, s, i) => bounded(added(a(n, s, i), n[s[i + b] as number] as number)),
    (a, b) => (n, s, i) => bounded(added(a(n, s, i), b(n, s, i))),
  ),
  '-': joins(
    (a, b) => (n, s, i) =>
      bounded(subtracted(n[s[i + a] as number] as number, n[s[i + b] as number] as number)),
    (a, b) => (n, s, i) => bounded(subtracted(n[s[i + a] as number] as number, b(n, s, i))),
    (a, b) => (n, s, i) => bounded(subtracted(a(n, s, i), n[s[i + b] as number] as number)),
    (a, b) => (n, s, i) => bounded(subtracted(a(n, s, i), b(n, s, i))),
  ),
  '*': joins(
    (a, b) => (n, s, i) =>
      bounded((n[s[i + a] as number] as number) * (n[s[i + b] as number] as number)),
    (a, b) => (n, s, i) => bounded((n[s[i + a] as number] as number) * b(n, s, i)),
    (a, b) => (n, s, i) => bounded(a(n, s, i) * (n[s[i + b] as number] as number)),
    (a, b) => (n, s, i) => bounded(a(n, s, i) * b(n, s, i)),
  ),
  '/': joins(
    (a, b) => (n, s, i) =>
      divided(n[s[i + a] as number] as number, n[s[i + b] as number] as number),
    (a, b) => (n, s, i) => divided(n[s[i + a] as number] as number, b(n, s, i)),
    (a, b) => (n, s, i) => divided(a(n, s, i), n[s[i + b] as number] as number),
    (a, b) => (n, s, i) => divided(a(n, s, i), b(n, s, i)),
  ),
  '^': joins(
    (a, b) => (n, s, i) =>
      powered(n[s[i + a] as number] as number, n[s[i + b] as number] as number),
    (a, b) => (n, s, i) => powered(n[s[i + a] as number] as number, b(n, s, i)),
    (a, b) => (n, s, i) => powered(a(n, s, i), n[s[i + b] as number] as number),
    (a, b) => (n, s, i) => powered(a(n, s, i), b(n, s, i)),
  ),
};

type Joined = Part & { readonly kind: 'joined' };

const STEP: Readonly<Partial<Record<BinarySign, number>>> = {
  '+': 0,
  '-': 1,
  '*': 2,
  '/': 3,
  '^': 4,
};

/** `a*b+c-d`, one after the other as it is written: fewer calls than of one function within another. */
function chainOf(last: Joined): FastRun {
  const joined: Joined[] = [];
  let first: Part = last;
  while (first.kind === 'joined') {
    joined.unshift(first);
    first = first.left;
  }
  const start = runOf(first);
  const steps = joined.map(({ sign }) => STEP[sign] as number);
  const places = joined.map(({ right }) => (right.kind === 'number' ? right.at : -1));
  const works = joined.map(({ right }) => (right.kind === 'number' ? start : runOf(right)));
  return (n, s, i) => {
    let all = start(n, s, i);
    for (let at = 0; at < steps.length; at += 1) {
      const place = places[at] as number;
      const right =
        place < 0 ? (works[at] as FastRun)(n, s, i) : (n[s[i + place] as number] as number);
      switch (steps[at]) {
        case 0:
          all = added(all, right);
          break;
        case 1:
          all = subtracted(all, right);
          break;
        case 2:
          all *= right;
          break;
        case 3:
          all = right === 0 ? Number.NaN : all / right;
          break;
        default:
          all = powered(all, right);
      }
      // What is too large is no number; the next sign might make one of it again.
      all = bounded(all);
    }
    return all;
  };
}

const numberIn = (value: unknown): number =>
  typeof value === 'number' ? bounded(value) : Number.NaN;

/**
 * A call that throws is made once more, with all the care it takes, where it comes to nothing here. The first
 * few are written out: a call with a list of arguments is several times slower.
 */
function callOf(call: Call, works: readonly FastRun[]): FastRun {
  const [a, b, c, d] = works as [FastRun, FastRun, FastRun, FastRun];
  switch (works.length) {
    case 1:
      return (n, s, i) => {
        const first = a(n, s, i);
        if (Number.isNaN(first)) return first;
        try {
          return numberIn(call(first));
        } catch {
          return Number.NaN;
        }
      };
    case 2:
      return (n, s, i) => {
        const first = a(n, s, i);
        const second = b(n, s, i);
        if (either(first, second)) return Number.NaN;
        try {
          return numberIn(call(first, second));
        } catch {
          return Number.NaN;
        }
      };
    case 3:
      return (n, s, i) => {
        const first = a(n, s, i);
        const second = b(n, s, i);
        const third = c(n, s, i);
        if (either(first, second) || Number.isNaN(third)) return Number.NaN;
        try {
          return numberIn(call(first, second, third));
        } catch {
          return Number.NaN;
        }
      };
    case 4:
      return (n, s, i) => {
        const first = a(n, s, i);
        const second = b(n, s, i);
        const third = c(n, s, i);
        const fourth = d(n, s, i);
        if (either(first, second) || either(third, fourth)) return Number.NaN;
        try {
          return numberIn(call(first, second, third, fourth));
        } catch {
          return Number.NaN;
        }
      };
    default:
      return (n, s, i) => {
        const given: number[] = [];
        for (const work of works) {
          const value = work(n, s, i);
          if (Number.isNaN(value)) return value;
          given.push(value);
        }
        try {
          return numberIn(call(...given));
        } catch {
          return Number.NaN;
        }
      };
  }
}

type Choice = (left: FastRun, right: FastRun, yes: FastRun, no: FastRun) => FastRun;

/** One of them is no number. */
const either = (a: number, b: number): boolean => Number.isNaN(a) || Number.isNaN(b);

// Written out one by one, as the signs above are.
const CHOICE: Partial<Record<BinarySign, Choice>> = {
  '=': (left, right, yes, no) => (n, s, i) => {
    const a = left(n, s, i);
    const b = right(n, s, i);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) === 0 ? yes(n, s, i) : no(n, s, i);
  },
  '<>': (left, right, yes, no) => (n, s, i) => {
    const a = left(n, s, i);
    const b = right(n, s, i);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) !== 0 ? yes(n, s, i) : no(n, s, i);
  },
  '<': (left, right, yes, no) => (n, s, i) => {
    const a = left(n, s, i);
    const b = right(n, s, i);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) < 0 ? yes(n, s, i) : no(n, s, i);
  },
  '>': (left, right, yes, no) => (n, s, i) => {
    const a = left(n, s, i);
    const b = right(n, s, i);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) > 0 ? yes(n, s, i) : no(n, s, i);
  },
  '<=': (left, right, yes, no) => (n, s, i) => {
    const a = left(n, s, i);
    const b = right(n, s, i);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) <= 0 ? yes(n, s, i) : no(n, s, i);
  },
  '>=': (left, right, yes, no) => (n, s, i) => {
    const a = left(n, s, i);
    const b = right(n, s, i);
    if (either(a, b)) return Number.NaN;
    return comparedNumbers(a, b) >= 0 ? yes(n, s, i) : no(n, s, i);
  },
};

/** Most of all that goes over ranges is a sum. */
function summed(n: Float64Array, s: Int32Array, from: number, count: number): number {
  let sum = 0;
  for (let i = from; i < from + count; i += 1) sum = added(sum, n[s[i] as number] as number);
  // A sum over one that is no number is none either.
  return bounded(added(sum, 0));
}

/** What came of the parts before, and one more. */
type JoinsOneMore = (n: Float64Array, s: Int32Array, at: number, all: number) => number;

function joinOf(aggregate: Aggregate, part: Part): JoinsOneMore {
  const { join } = aggregate;
  if (part.kind === 'kept') {
    const { at: place } = part;
    return (n, s, at, all) => join(n[s[at + place] as number] as number, all);
  }
  if (part.kind === 'cells') {
    const { at: place, count } = part;
    return (n, s, at, all) => join(joinedNumbers(aggregate, n, s, at + place, count), all);
  }
  const work = runOf(part);
  return (n, s, at, all) => join(all, work(n, s, at));
}

function overOf(aggregate: Aggregate, parts: readonly Part[]): FastRun {
  const { from, join, last } = aggregate;
  const [only] = parts;
  if (only?.kind === 'cells' && parts.length === 1 && join === added) {
    const { at: place, count } = only;
    return (n, s, at) => summed(n, s, at + place, count);
  }
  const joined = parts.map((part) => joinOf(aggregate, part));
  return (n, s, at) => {
    let all = from;
    for (const one of joined) all = one(n, s, at, all);
    return last === undefined || Number.isNaN(all) ? bounded(all) : bounded(last(all));
  };
}
