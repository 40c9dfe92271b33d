import type { ErrorWord, KeptReference, Node } from '@kerfbook/document';
import { ourFunction, standardFunction } from '@kerfbook/functions';
import {
  type FunctionDescription,
  type OwnKind,
  type UnitSystem,
  withOwnTables,
} from '@kerfbook/wood';
import {
  CallRefused,
  callDescribed,
  GivenRange,
  STEPS_OF_GUESS,
  stepsOf,
  tooMany,
} from '../results/described.ts';
import { BUDGET } from '../results/meter.ts';
import { ownRows, ownTableOf } from '../results/own-rows.ts';
import { AGGREGATES, type Aggregate, counted, joined } from './aggregates.ts';
import type { Closure } from './closure.ts';
import { type Fast, fastOf, type Slots } from './fast.ts';
import type { Frame } from './frame.ts';
import { PLAIN, type Plain, type Taken, taken } from './functions.ts';
import { joinedBy, signed } from './operators.ts';
import { quickCall } from './quick-call.ts';
import { SPREAD, spread } from './spread.ts';
import {
  Failure,
  finished,
  NOWHERE,
  SAYS,
  settled,
  toLogical,
  toNumber,
  type Value,
} from './values.ts';

/** Cells of a rectangle, row by row. */
export interface Rectangle {
  readonly key: string;
  readonly cells: Int32Array;
  readonly width: number;
}

/** Where the things a formula names are. */
export interface Around {
  readonly system: UnitSystem;
  /** The slot of one cell; nothing where it is gone. */
  cell(reference: KeptReference): number | undefined;
  /** The cells of a range; `unfit` where it is turned round, or whole rows or columns. */
  range(reference: KeptReference): Rectangle | 'gone' | 'unfit';
  /** The slot of the cell that a name stands for. */
  named(name: string): number | undefined;
  /** The slot of a number that stands in a formula. */
  constant(value: number): number;
  /** A name that lies in a loop itself: whoever uses it gets the loop as its own. */
  inLoop(name: string): boolean;
}

/** An own table that a formula's functions look in first. */
export interface OwnTable {
  readonly kind: OwnKind;
  readonly area: Rectangle;
}

/** A formula that can be worked out, and what it uses. */
export interface Compiled {
  readonly work: Closure;
  /** The same with numbers alone, where that will do. */
  readonly fast: Fast | undefined;
  readonly cells: readonly number[];
  readonly ranges: readonly Rectangle[];
  readonly names: readonly string[];
}

/** Why a formula is left to the other engine: a word that stands in it. */
export class NotCompiled extends Error {}

const ERRORS: Readonly<Record<ErrorWord, string>> = {
  '#DIV/0!': 'DIV_BY_ZERO',
  '#NAME?': 'NAME',
  '#VALUE!': 'VALUE',
  '#NUM!': 'NUM',
  '#N/A': 'NA',
  '#CYCLE!': 'CYCLE',
  '#REF!': 'REF',
  '#SPILL!': 'SPILL',
  '#ERROR!': 'ERROR',
};

/** A word that no one takes for an address of a cell, and that needs no stand-in in the other engine. */
const PLAIN_NAME = /^(?![A-Za-z]+\d+$|[Rr]\d*[Cc]\d*$)[A-Za-z_][A-Za-z0-9_.]*$/;

/** Cells of one range at the most: more of them are better summed where sums are remembered. */
const MOST_CELLS = 20_000;
/** What a standard function costs at the most: words are gone through letter by letter. */
const STEPS_OF_PLAIN = 700;

/**
 * Turns what a formula says into a function of the values of cells. Its results are those of the
 * engine it stands in for, bit by bit, errors too.
 *
 * @throws NotCompiled with the word for what it cannot do
 */
export function compile(root: Node, around: Around, own: readonly OwnTable[] = []): Compiled {
  const compiler = new Compiler(around);
  const work = compiler.whole(root);
  const whole = own.length === 0 ? work : compiler.withOwn(work, own);
  compiler.checkCost();
  return {
    work: whole,
    fast: own.length === 0 ? compiler.fast : undefined,
    cells: [...compiler.cells],
    ranges: [...compiler.ranges.values()],
    names: [...compiler.names],
  };
}

const isFailure = (value: unknown): value is Failure => value instanceof Failure;

class Compiler {
  readonly cells = new Set<number>();
  readonly ranges = new Map<string, Rectangle>();
  readonly names = new Set<string>();
  /** The whole formula with numbers alone. */
  fast: Fast | undefined;
  readonly #around: Around;
  #steps = 0;
  /** A part around this one is worked out with numbers alone, where it can be. */
  #withinFast = false;
  #rangeCells = 0;

  constructor(around: Around) {
    this.#around = around;
  }

  /** A formula may cost so much that the other engine would not work it out (rule B1). */
  checkCost(): void {
    if (this.#steps > BUDGET.steps / 2 || this.#rangeCells > BUDGET.cells / 2) {
      throw new NotCompiled('its size');
    }
  }

  /** A whole formula: who works it out tries it with numbers alone first. */
  whole(root: Node): Closure {
    this.fast = fastOf(root, this.#slots);
    this.#withinFast = this.fast !== undefined;
    return this.#slow(root);
  }

  /** What a part comes to: with numbers alone where that will do, otherwise with all there may be. */
  scalar(node: Node): Closure {
    const plain = this.#withinFast || node.kind === 'reference' || node.kind === 'name';
    const fast = plain ? undefined : fastOf(node, this.#slots);
    if (fast === undefined) return this.#slow(node);
    this.#withinFast = true;
    const slow = this.#slow(node);
    this.#withinFast = false;
    return (frame) => {
      const value = fast(frame.numbers);
      return Number.isNaN(value) ? slow(frame) : value;
    };
  }

  readonly #slots: Slots = {
    constant: (value) => this.#around.constant(value),
    slotOf: (node) => {
      if (node.kind === 'reference' && node.to.to === undefined) return this.#around.cell(node.to);
      if (node.kind !== 'name' || this.#around.inLoop(node.name)) return undefined;
      return this.#around.named(node.name);
    },
    cellsOf: (node) => {
      if (node.kind !== 'reference' || node.to.to === undefined) return undefined;
      const range = this.#around.range(node.to);
      return typeof range === 'string' || range.cells.length > MOST_CELLS ? undefined : range.cells;
    },
  };

  #slow(node: Node): Closure {
    switch (node.kind) {
      case 'number':
        return constant(finished(node.value));
      case 'text':
      case 'logical':
        return constant(node.value);
      case 'error':
        return constant(new Failure(ERRORS[node.word]));
      case 'lost':
        return constant(new Failure('REF'));
      case 'nothing':
        return constant(null);
      case 'bracket':
        return this.scalar(node.of);
      case 'reference':
        return this.#cell(node.to);
      case 'name':
        return this.#name(node.name);
      case 'sign':
        return signed(node.sign, this.scalar(node.of));
      case 'joined':
        return joinedBy(node.sign, this.scalar(node.left), this.scalar(node.right));
      case 'call':
        return this.#call(node.name, node.args);
      case 'array':
        throw new NotCompiled('{…}');
    }
  }

  #cell(reference: KeptReference): Closure {
    if (reference.to !== undefined) return this.#rangeOfOne(reference);
    const slot = this.#around.cell(reference);
    if (slot === undefined) return constant(new Failure('REF'));
    this.cells.add(slot);
    return (frame) => frame.get(slot);
  }

  /** A range of one cell is that cell; where one value is asked for, no other range will do. */
  #rangeOfOne(reference: KeptReference): Closure {
    const range = this.#range(reference);
    if (range === 'gone') return constant(new Failure('REF'));
    const [slot] = range.cells;
    if (range.cells.length !== 1 || slot === undefined) throw new NotCompiled('a range');
    return (frame) => frame.get(slot);
  }

  #range(reference: KeptReference): Rectangle | 'gone' {
    const range = this.#around.range(reference);
    if (range === 'gone') return range;
    if (range === 'unfit' || range.cells.length > MOST_CELLS) throw new NotCompiled('a range');
    this.ranges.set(range.key, range);
    this.#rangeCells += range.cells.length;
    this.#steps += 3 * range.cells.length;
    return range;
  }

  #name(name: string): Closure {
    const slot = this.#around.named(name);
    if (slot === undefined) {
      if (!PLAIN_NAME.test(name)) throw new NotCompiled(name);
      return constant(new Failure('NAME', `Named expression ${name} not recognized.`));
    }
    this.names.add(name);
    this.cells.add(slot);
    if (this.#around.inLoop(name)) return constant(new Failure('CYCLE', '', NOWHERE));
    return (frame) => {
      const value = frame.get(slot) ?? 0;
      // What cannot be read is an error of no cell; who asks by name takes the name for its home.
      return value instanceof Failure ? value.begunIn(NOWHERE) : value;
    };
  }

  #call(name: string, args: readonly Node[]): Closure {
    if (name === 'IF') return this.#if(args);
    // It looks at nothing that it is given.
    if (name === 'NA') return this.#nothing(args, new Failure('NA'));
    const aggregate = AGGREGATES.get(name);
    if (aggregate !== undefined) return this.#aggregate(aggregate, args);
    const plain = PLAIN.get(name);
    if (plain !== undefined) return this.#plain(plain, args);
    const over = SPREAD.get(name);
    if (over !== undefined) return this.#spread(over, args);
    if (name === 'SUMPRODUCT') return this.#sumProduct(args);
    const description = ourFunction(name);
    if (description !== undefined) return this.#described(description, args);
    // To the other engine `OFFSETS(` is its own OFFSET with something behind it.
    if (standardFunction(name) !== undefined || /^(?:KERFBOOK_|OFFSET)/.test(name)) {
      throw new NotCompiled(name);
    }
    return this.#nothing(args, new Failure('NAME', `Function name ${name} not recognized.`));
  }

  #nothing(args: readonly Node[], failure: Failure): Closure {
    for (const arg of args) this.#reads(arg);
    return constant(failure);
  }

  /** What is not worked out is used all the same: it can close a loop. */
  #reads(node: Node): void {
    if (rangeIn(node) === undefined) this.scalar(node);
    else this.#range(rangeIn(node) as KeptReference);
  }

  #if(args: readonly Node[]): Closure {
    const [condition, then, otherwise] = args.map((arg) => this.scalar(arg));
    if (condition === undefined || then === undefined || args.length > 3) {
      return constant(wrongCount());
    }
    const wrong = new Failure('VALUE', SAYS.wrongType);
    const or = otherwise ?? constant(false);
    return (frame) => {
      const value = condition(frame);
      const holds = typeof value === 'boolean' ? value : toLogical(value);
      if (holds === true) return then(frame);
      if (holds === false) return or(frame);
      return holds ?? wrong;
    };
  }

  #aggregate(aggregate: Aggregate, args: readonly Node[]): Closure {
    const { from, join, last = (all: number) => all } = aggregate;
    if (args.length === 0) return constant(wrongCount());
    const parts = args.map((arg): ((frame: Frame, all: number) => number | Failure) => {
      if (arg.kind === 'reference' && arg.to.to !== undefined) {
        const range = this.#range(arg.to);
        if (range === 'gone') return () => new Failure('REF');
        const { cells } = range;
        return (frame, all) => {
          const value = joined(aggregate, frame, cells);
          return typeof value === 'number' ? join(value, all) : value;
        };
      }
      const work = this.scalar(arg);
      const isCell = arg.kind === 'reference';
      return (frame, all) => {
        const value = counted(aggregate, work(frame), isCell);
        if (value === undefined) return all;
        return typeof value === 'number' ? join(all, value) : value;
      };
    });
    return (frame) => {
      let all = from;
      for (const part of parts) {
        const next = part(frame, all);
        if (typeof next !== 'number') return next;
        all = next;
      }
      return finished(last(all));
    };
  }

  #plain({ takes, again, run }: Plain, args: readonly Node[]): Closure {
    this.#steps += STEPS_OF_PLAIN;
    const works = args.map((arg) => this.scalar(arg));
    const all = withAgain(takes, again, args.length);
    if (all === undefined) return constant(wrongCount());
    const call = run as (...args: (Value | undefined)[]) => Value;
    const [first] = all;
    if (all.length === 1 && first !== undefined && works[0] !== undefined) {
      return ofOne(works[0], first, call);
    }
    return (frame) => {
      const given: (Value | undefined)[] = [];
      for (const [i, take] of all.entries()) {
        const value = works[i]?.(frame) ?? (works[i] === undefined ? take.leftOut : null);
        if (value === undefined) {
          given.push(undefined);
          continue;
        }
        const fit = taken(value, take);
        if (fit === undefined) return new Failure('VALUE', SAYS.wrongType);
        if (isFailure(fit) && take.as !== 'any') return fit;
        given.push(fit);
      }
      return settled(call(...given));
    };
  }

  #spread(over: Parameters<typeof spread>[0], args: readonly Node[]): Closure {
    if (args.length === 0) return constant(wrongCount());
    const parts = args.map((arg) => {
      const reference = rangeIn(arg);
      const range = reference === undefined ? undefined : this.#range(reference);
      if (range === undefined) return this.scalar(arg);
      if (range === 'gone') return constant(new Failure('REF'));
      const [only] = range.cells;
      return range.cells.length === 1 && only !== undefined
        ? (frame: Frame) => frame.get(only)
        : range.cells;
    });
    return spread(over, parts);
  }

  #sumProduct(args: readonly Node[]): Closure {
    if (args.length === 0) return constant(wrongCount());
    const ranges = args.map((arg) => {
      const reference = rangeIn(arg);
      return reference === undefined ? undefined : this.#range(reference);
    });
    const areas = ranges.filter((one) => one !== undefined && one !== 'gone');
    // Single values beside ranges are rare, and so are ranges that are gone.
    if (areas.length < args.length) throw new NotCompiled('SUMPRODUCT');
    const [first] = areas;
    const count = first?.cells.length ?? 0;
    const alike = areas.every(
      ({ width, cells }) => width === first?.width && cells.length === count,
    );
    // A range of one cell is a single value: an error in it comes before all else.
    if (count === 1 || areas.some(({ cells }) => cells.length === 1)) {
      throw new NotCompiled('SUMPRODUCT');
    }
    if (!alike) return constant(new Failure('VALUE', SAYS.sameSize));
    return (frame) => {
      let sum = 0;
      for (let i = 0; i < count; i += 1) {
        let product = 1;
        for (const { cells } of areas) {
          const value = frame.get(cells[i] as number);
          if (value instanceof Failure) return value;
          const number = toNumber(value);
          if (typeof number === 'number') product *= number;
          else product = 0;
        }
        sum += product;
      }
      return finished(sum);
    };
  }

  #described(description: FunctionDescription, args: readonly Node[]): Closure {
    if (description.fills !== undefined) throw new NotCompiled(description.name);
    this.#steps += stepsOf(description) + STEPS_OF_GUESS;
    if (args.length > description.args.length) {
      const { type, message } = tooMany(description, args.length);
      return this.#nothing(args, new Failure(type, message));
    }
    const parts = args.map((arg, i) => {
      const reference = description.args[i]?.takes === 'range' ? rangeIn(arg) : undefined;
      if (reference === undefined) return this.scalar(arg);
      const range = this.#range(reference);
      if (range === 'gone') return constant(new Failure('REF'));
      const [only] = range.cells;
      return range.cells.length === 1 && only !== undefined
        ? (frame: Frame) => frame.get(only)
        : range.cells;
    });
    const { system } = this.#around;
    const works = parts.filter((part) => typeof part === 'function');
    const quick = works.length === parts.length ? quickCall(description, works, system) : undefined;
    return (frame) => {
      const answer = quick?.(frame);
      if (answer !== undefined) return answer;
      const given: unknown[] = [];
      for (const part of parts) {
        if (typeof part !== 'function') {
          given.push(new GivenRange(Array.from(part, (slot) => frame.get(slot))));
          continue;
        }
        const value = part(frame);
        if (value instanceof Failure) return value;
        given.push(value);
      }
      const result = callDescribed(description, given, system, isFailure);
      if (typeof result === 'number') return finished(result);
      if (result instanceof CallRefused) return new Failure(result.type, result.message);
      if (typeof result === 'string' || result instanceof Failure) return result;
      throw new Error(`${description.name} came to a column`);
    };
  }

  /** A formula's value while its functions look in own tables first. */
  withOwn(work: Closure, own: readonly OwnTable[]): Closure {
    const { system } = this.#around;
    const tables = own.flatMap(({ kind, area }) => {
      const table = ownTableOf(kind);
      this.ranges.set(area.key, area);
      this.#rangeCells += area.cells.length;
      this.#steps += 3 * area.cells.length;
      return table === undefined ? [] : [{ kind, area, table }];
    });
    return (frame) => {
      const found: Parameters<typeof withOwnTables>[0] = {};
      for (const { kind, area, table } of tables) {
        const lines = linesOf(area).map((line) => line.map((slot) => frame.get(slot)));
        const rows = ownRows(table, lines, system, isFailure);
        if (rows instanceof CallRefused) return new Failure(rows.type, rows.message);
        if (rows instanceof Failure) return rows;
        (found as Record<string, unknown>)[kind] = rows;
      }
      return withOwnTables(found, () => work(frame));
    };
  }
}

function linesOf({ cells, width }: Rectangle): number[][] {
  const lines: number[][] = [];
  for (let at = 0; at < cells.length; at += width) lines.push([...cells.subarray(at, at + width)]);
  return lines;
}

const wrongCount = (): Failure => new Failure('NA', SAYS.arguments);
const constant =
  (value: Value): Closure =>
  () =>
    value;

/** The range that stands where an argument does; a range in brackets too. */
function rangeIn(node: Node): KeptReference | undefined {
  if (node.kind === 'bracket') return rangeIn(node.of);
  return node.kind === 'reference' && node.to.to !== undefined ? node.to : undefined;
}

function ofOne(work: Closure, take: Taken, run: (value: Value) => Value): Closure {
  const wrong = new Failure('VALUE', SAYS.wrongType);
  return (frame) => {
    const fit = taken(work(frame), take);
    if (fit === undefined) return wrong;
    return isFailure(fit) && take.as !== 'any' ? fit : settled(run(fit));
  };
}

/** What is taken in each place of so many arguments; nothing where there are too many or too few. */
function withAgain(
  takes: readonly Taken[],
  again: number | undefined,
  count: number,
): readonly Taken[] | undefined {
  const all = [...takes];
  if (again !== undefined) while (count > all.length) all.push(...all.slice(all.length - again));
  if (count > all.length) return undefined;
  return all.slice(count).every(({ leftOut }) => leftOut !== undefined) ? all : undefined;
}
