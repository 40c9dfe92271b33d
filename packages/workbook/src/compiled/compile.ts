import type { KeptReference, Node } from '@kerfbook/document';
import { ourFunction, standardFunction } from '@kerfbook/functions';
import {
  type Computing,
  AGGREGATES as KEEPING,
  type Position,
  type Size,
  SUBTOTALS,
  taken,
} from '@kerfbook/functions/computing';
import type { FunctionDescription } from '@kerfbook/wood';
import { STEPS_OF_GUESS, stepsOf, tooMany } from '../results/described.ts';
import { BUDGET, beginMeter, endMeter, spend, TooMuch } from '../results/meter.ts';
import { ownTableOf } from '../results/own-rows.ts';
import {
  AGGREGATES,
  type Aggregate,
  type AggregateArgument,
  aggregated,
  type Input,
  inTurn,
  overMany,
  overOne,
  overRange,
} from './aggregates.ts';
import type { Around, Compiled, Here, OwnTable, Rectangle } from './around.ts';
import { type Closure, chosen, constant, ERRORS, ofOne, ofSingles, wrongCount } from './closure.ts';
import { type Fast, fastOf, type Slots } from './fast.ts';
import { PLAIN, POSITIONS } from './functions.ts';
import {
  type Argument,
  called,
  cellsOf,
  joinedMany,
  laidOut,
  type Many,
  ONE,
  placesOf,
  rangeOf,
  signedMany,
} from './many.ts';
import { NotCompiled } from './not-compiled.ts';
import { ofNumbers, slotOf } from './numbers.ts';
import { joinedBy, signed } from './operators.ts';
import { oursAs, withOwn } from './ours.ts';
import { quickCall, quickOr } from './quick-call.ts';
import { Sizes } from './sizes.ts';
import { calls, readsCells, withoutBrackets } from './standing.ts';
import { Failure, finished, NOWHERE, SAYS, type Value } from './values.ts';
import { isWhole, takesWhole } from './whole.ts';

/** A word that no one takes for an address of a cell, and that needs no stand-in in the other engine. */
const PLAIN_NAME = /^(?![A-Za-z]+\d+$|[Rr]\d*[Cc]\d*$)[A-Za-z_][A-Za-z0-9_.]*$/;

/** Cells of one range at the most: more of them are better summed where sums are remembered. */
const MOST_CELLS = BUDGET.cells;

/**
 * Turns what a formula says into a function of the values of cells. Its results are those of the
 * engine it stands in for, bit by bit, errors too.
 *
 * @throws NotCompiled with the word for what it cannot do
 */
export function compile(
  root: Node,
  around: Around,
  own: readonly OwnTable[] = [],
  here?: Here,
): Compiled {
  const numbers = own.length === 0 ? ofNumbers(root, around) : undefined;
  if (numbers !== undefined) return numbers;
  const compiler = new Compiler(around, here);
  return {
    work: compiler.whole(root, own),
    fast: undefined,
    cells: [...compiler.cells],
    ranges: [...compiler.ranges.values()],
    looksAt: compiler.looksAt,
    changes: compiler.changes,
  };
}

/**
 * The same with all there may be, also of a formula of numbers alone. Nothing is added to the workbook then
 * that the formula did not use before: this is asked for in the middle of working values out.
 *
 * @throws NotCompiled with the word for what it cannot do
 */
export const workOf = (
  root: Node,
  around: Around,
  own: readonly OwnTable[] = [],
  here?: Here,
): Closure => new Compiler(around, here, true).whole(root, own);

/**
 * Compiles one formula and is gone then: what is worked out later is made by functions that do not see it,
 * since a closure keeps all that any closure beside it sees.
 */
class Compiler {
  readonly cells = new Set<number>();
  readonly ranges = new Map<string, Rectangle>();
  looksAt: 'shape' | 'content' | undefined;
  changes = false;
  readonly #around: Around;
  readonly #here: Here | undefined;
  readonly #slots: Slots;
  #steps = 0;
  /** Parts are not tried with numbers alone: the part around them is, or nothing is. */
  #withinFast: boolean;
  #rangeCells = 0;
  #isMetered = false;
  readonly #sizes = new Sizes((node) => this.#sizeOf(node));

  constructor(around: Around, here: Here | undefined, withoutFast = false) {
    this.#around = around;
    this.#here = here;
    this.#withinFast = withoutFast;
    this.#slots = this.#makeSlots();
  }

  /** A formula may cost so much that the other engine would not work it out (rule B1). */
  #checkCost(): void {
    if (this.#steps > BUDGET.steps / 2 || this.#rangeCells > BUDGET.cells / 2) {
      throw new NotCompiled('its size');
    }
  }

  /** What words cost is counted while a formula is worked out, beside what is known before (rule B1). */
  #metered(work: Closure): Closure {
    if (!this.#isMetered) return work;
    const known = this.#steps;
    return (frame) => {
      beginMeter();
      try {
        spend(known);
        return work(frame);
      } catch (reason) {
        if (reason instanceof TooMuch) return new Failure('ERROR', reason.message);
        throw reason;
      } finally {
        endMeter();
      }
    };
  }

  /** A whole formula. */
  whole(root: Node, own: readonly OwnTable[]): Closure {
    if (cellsOf(this.#sizes.fills(root)) !== 1) throw new NotCompiled('results that spread');
    const work = this.#slow(root);
    const whole = own.length === 0 ? work : this.#withOwn(work, own);
    this.#checkCost();
    return this.#metered(whole);
  }

  /** What a part comes to: with numbers alone where that will do, otherwise with all there may be. */
  scalar(node: Node): Closure {
    const plain = this.#withinFast || node.kind === 'reference' || node.kind === 'name';
    const fast = plain ? undefined : fastOf(node, this.#slots, this.#around.runs);
    if (fast === undefined) return this.#slow(node);
    this.#withinFast = true;
    const slow = this.#slow(node);
    this.#withinFast = false;
    return quickOrSlow(fast, slow);
  }

  #makeSlots(): Slots {
    return {
      system: this.#around.system,
      constant: (value) => this.#around.constant(value),
      slotOf: (node) => slotOf(node, this.#around),
      cellsOf: (node) => {
        if (node.kind !== 'reference' || node.to.to === undefined) return undefined;
        const range = this.#around.range(node.to);
        return typeof range === 'string' || range.cells.length > MOST_CELLS
          ? undefined
          : range.cells;
      },
      sharedOf: (name, node) => this.#shared(name, node),
      oursOf: ourFunction,
    };
  }

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
      case 'array':
        return this.#single(node);
    }
  }

  /** What comes to one value, whatever it is made of. */
  #single(node: Node): Closure {
    if (this.#sizes.isMany(node)) throw new NotCompiled('a range');
    return this.#several(node) as Closure;
  }

  /** What a part comes to that may be several values. */
  many(node: Node): Many {
    return this.#sizes.isMany(node) ? this.#several(node) : this.scalar(node);
  }

  #several(node: Node): Many {
    const cells = cellsOf(this.#sizes.of(node));
    switch (node.kind) {
      case 'bracket':
        return this.many(node.of);
      case 'reference':
        return this.#rangeOfMany(node.to);
      case 'sign':
        this.#steps += cells;
        return signedMany(node.sign, this.many(node.of));
      case 'joined':
        this.#steps += 2 * cells;
        return joinedMany(node.sign, this.many(node.left), this.many(node.right));
      case 'array':
        this.#steps += cells;
        return laidOut(node.rows.map((line) => line.map((one) => this.many(one))));
      case 'call':
        if (cells > 1) this.#steps += cells;
        return this.#call(node.name, node.args);
      default:
        return this.scalar(node);
    }
  }

  #rangeOfMany(reference: KeptReference, mayBeWhole = false): Many {
    const range = this.#range(reference, mayBeWhole);
    return range === 'gone' ? constant(new Failure('REF')) : rangeOf(range.cells, range.width);
  }

  #shared(name: string, node: Node): number | undefined {
    const aggregate = AGGREGATES.get(name);
    if (aggregate === undefined || node.kind !== 'reference') return undefined;
    const range = this.#around.range(node.to);
    if (typeof range === 'string' || range.cells.length > MOST_CELLS) return undefined;
    const shared = this.#around.shared(name, aggregate, range);
    if (shared !== undefined) this.cells.add(shared);
    return shared;
  }

  #cell(reference: KeptReference): Closure {
    if (reference.to !== undefined) return this.#rangeOfOne(reference);
    // A row or column by itself is no cell; what it is read as is seen in how it is written.
    const { row, column } = reference.from;
    if (row === undefined || column === undefined) throw new NotCompiled('half a cell');
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

  #range(reference: KeptReference, mayBeWhole = false): Rectangle | 'gone' {
    if (isWhole(reference)) {
      if (!mayBeWhole) throw new NotCompiled('a whole column or row');
      this.looksAt ??= 'shape';
    }
    const range = this.#around.range(reference);
    if (range === 'gone') return range;
    if (range === 'unfit' || range.cells.length > MOST_CELLS) throw new NotCompiled('a range');
    this.ranges.set(range.key, range);
    this.#rangeCells += range.cells.length;
    this.#steps += range.cells.length;
    return range;
  }

  #sizeOf(node: Node): Size {
    if (node.kind !== 'reference') return ONE;
    const range = this.#around.range(node.to);
    if (range === 'unfit') throw new NotCompiled('a range');
    return range === 'gone'
      ? ONE
      : { columns: range.width, rows: range.cells.length / range.width };
  }

  #name(name: string): Closure {
    const slot = this.#around.named(name);
    if (slot === undefined) {
      if (!PLAIN_NAME.test(name)) throw new NotCompiled(name);
      return constant(new Failure('NAME', `Named expression ${name} not recognized.`));
    }
    this.cells.add(slot);
    if (this.#around.inLoop(name)) return constant(new Failure('CYCLE', '', NOWHERE));
    return (frame) => {
      const value = frame.get(slot) ?? 0;
      // What cannot be read is an error of no cell; who asks by name takes the name for its home.
      return value instanceof Failure ? value.begunIn(NOWHERE) : value;
    };
  }

  #call(name: string, args: readonly Node[]): Many {
    if (name === 'IF' && !args.some((arg) => this.#sizes.isMany(arg))) return this.#if(args);
    // It looks at nothing that it is given.
    if (name === 'NA') return this.#nothing(args, new Failure('NA'));
    if (AGGREGATES.has(name) || KEEPING.has(name)) return this.#named(name, args);
    if (name === 'SUBTOTAL') return this.#subtotal(args);
    const position = POSITIONS.get(name);
    if (position !== undefined) return this.#position(name, position, args);
    const plain = PLAIN.get(name);
    if (plain !== undefined) return this.#computed(name, plain, args);
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
    this.many(node);
  }

  #if(args: readonly Node[]): Closure {
    const [condition, then, otherwise] = this.#scalars(args);
    if (condition === undefined || then === undefined || args.length > 3) {
      return constant(wrongCount());
    }
    return chosen(condition, then, otherwise ?? constant(false));
  }

  #scalars(args: readonly Node[]): readonly Closure[] {
    return args.map((arg) => this.scalar(arg));
  }

  #aggregate(name: string, aggregate: Aggregate, args: readonly Node[]): Closure {
    if (args.length === 0) return constant(wrongCount());
    return inTurn(aggregate, this.#inputs(name, aggregate, args));
  }

  #inputs(name: string, aggregate: Aggregate, args: readonly Node[]): readonly Input[] {
    return args.map((arg) => this.#input(name, aggregate, arg));
  }

  #input(name: string, aggregate: Aggregate, arg: Node): Input {
    if (arg.kind === 'reference' && arg.to.to !== undefined) {
      const range = this.#range(arg.to, true);
      return range === 'gone'
        ? () => new Failure('REF')
        : overRange(aggregate, range.cells, this.#shared(name, arg));
    }
    if (this.#sizes.isMany(arg)) return overMany(aggregate, this.many(arg));
    return overOne(aggregate, this.scalar(arg), arg.kind === 'reference');
  }

  /** A standard function: of single values alone, or of ranges and of several values. */
  #computed(name: string, about: Computing, args: readonly Node[]): Many {
    this.changes ||= about.changes ?? false;
    const places = about.spread ? undefined : placesOf(about, args.length);
    // What is given is worked out before it is counted: it may cost too much.
    if (!about.spread && places === undefined && args.some(calls)) throw new NotCompiled(name);
    const takesOne = places?.every(({ as }) => as !== 'range' && as !== 'either') ?? false;
    const isOne = about.size === undefined && !args.some((arg) => this.#sizes.isMany(arg));
    if (takesOne && isOne) {
      return this.#plain(name, about, args);
    }
    const mayBeWhole = takesWhole(about, args);
    const over = about.spread ? ONE : this.#sizes.over(about, args, name);
    this.#spendFor(about, args, cellsOf(over));
    return called(about, this.#arguments(args, mayBeWhole), this.#spending(name));
  }

  #argument(arg: Node, mayBeWhole = false): Argument {
    if (mayBeWhole && arg.kind === 'reference' && isWhole(arg.to)) {
      return { work: this.#rangeOfMany(arg.to, true), isEmpty: false };
    }
    return { work: this.many(arg), isEmpty: arg.kind === 'nothing' };
  }

  /** Counts what it costs to hand over ranges, and to go through several values one by one. */
  #spendFor({ spread }: Computing, args: readonly Node[], times: number): void {
    const given = args.reduce((sum, arg) => {
      const cells = cellsOf(this.#sizes.of(arg));
      return cells > 1 ? sum + cells : sum;
    }, 0);
    this.#steps += times * given;
    if (times > 1) this.#steps += (3 + 2 * args.length) * times;
    if (spread && given + args.length > BUDGET.values) throw new NotCompiled('its size');
  }

  /** What a function costs for what it is given is counted when it is worked out. */
  #spending(name: string): ((given: readonly unknown[]) => void) | undefined {
    const steps = standardFunction(name)?.steps;
    if (steps === undefined) return undefined;
    this.#isMetered = true;
    return (given) => spend(steps(...given) || 0);
  }

  #plain(name: string, about: Computing, args: readonly Node[]): Closure {
    const works = this.#scalars(args);
    const all = placesOf(about, args.length);
    if (all === undefined) return constant(wrongCount());
    const spends = this.#spending(name);
    const call = about.run as (...args: (Value | undefined)[]) => Value;
    const [first] = all;
    if (all.length === 1 && first !== undefined && works[0] !== undefined && spends === undefined) {
      return ofOne(works[0], first, call);
    }
    const isLeftOut = args.map((arg, i) => arg.kind === 'nothing' && all[i]?.emptyIsLeftOut);
    const given = works.map((work, i) => (isLeftOut[i] ? undefined : work));
    return ofSingles(given, all, call, spends);
  }

  /** What is told of where cells stand: no value of theirs is asked for. */
  #position(name: string, position: Position, args: readonly Node[]): Closure {
    const here = this.#here;
    if (here === undefined) throw new NotCompiled(name);
    this.looksAt = position.content ? 'content' : (this.looksAt ?? 'shape');
    const [arg] = args;
    // Among those that are too many there may be what cannot be read.
    if (args.length > 1 && args.some(calls)) throw new NotCompiled(name);
    if (args.length > 1) return constant(wrongCount());
    if (arg === undefined) return constant(position.none(here.standing));
    const node = withoutBrackets(arg);
    if (node.kind === 'reference') {
      const named = here.named(node.to);
      const value = named === undefined ? undefined : position.of(here.standing, named);
      return constant(value ?? position.other(here.standing, new Failure('REF'), false));
    }
    // HyperFormula does not wait for the cells of an argument that names none.
    if (readsCells(node) || this.#sizes.isMany(node)) throw new NotCompiled(name);
    const work = this.scalar(node);
    return (frame) => position.other(here.standing, work(frame), node.kind === 'nothing');
  }

  /** The aggregate that SUBTOTAL asks for by its first argument. */
  #subtotal([which, ...rest]: readonly Node[]): Closure {
    if (which === undefined || rest.length === 0) return constant(wrongCount());
    const asked = this.scalar(which);
    const works = new Map<string, Closure>();
    for (const name of new Set(SUBTOTALS.values())) works.set(name, this.#named(name, rest));
    const unknown = new Failure('VALUE', SAYS.mode);
    return (frame) => {
      const number = taken(asked(frame), { as: 'number' });
      const name = typeof number === 'number' ? SUBTOTALS.get(number) : undefined;
      return name === undefined ? unknown : (works.get(name)?.(frame) ?? unknown);
    };
  }

  #named(name: string, args: readonly Node[]): Closure {
    const aggregate = AGGREGATES.get(name);
    if (aggregate !== undefined) return this.#aggregate(name, aggregate, args);
    const keeping = KEEPING.get(name);
    if (keeping === undefined) throw new NotCompiled(name);
    if (args.length === 0) return constant(wrongCount());
    const parts = args.map((arg): AggregateArgument => {
      if (arg.kind !== 'reference' || arg.to.to === undefined) {
        return { work: this.many(arg), isCell: arg.kind === 'reference' };
      }
      const range = this.#range(arg.to, true);
      if (range === 'gone') return { work: () => new Failure('REF'), isCell: true };
      return { cells: range.cells };
    });
    return aggregated(keeping, parts);
  }

  #described(description: FunctionDescription, args: readonly Node[]): Many {
    this.#steps += stepsOf(description) + STEPS_OF_GUESS;
    if (args.length > description.args.length) {
      const { type, message } = tooMany(description, args.length);
      return this.#nothing(args, new Failure(type, message));
    }
    const { system } = this.#around;
    const about = oursAs(description, system);
    const over = this.#sizes.over(about, args, description.name);
    this.#steps += (cellsOf(over) - 1) * (stepsOf(description) + STEPS_OF_GUESS);
    this.#spendFor(about, args, cellsOf(over));
    const parts = this.#arguments(args);
    const careful = called(about, parts);
    if (description.fills !== undefined || args.some((arg) => this.#sizes.isMany(arg))) {
      return careful;
    }
    const works = parts.map(({ work }) => work as Closure);
    const quick = quickCall(description, works, system);
    return quick === undefined ? careful : quickOr(quick, careful);
  }

  #arguments(args: readonly Node[], mayBeWhole = false): readonly Argument[] {
    return args.map((arg) => this.#argument(arg, mayBeWhole));
  }

  /** A formula's value while its functions look in own tables first. */
  #withOwn(work: Closure, own: readonly OwnTable[]): Closure {
    const tables = own.flatMap(({ kind, area }) => {
      const table = ownTableOf(kind);
      this.ranges.set(area.key, area);
      this.#rangeCells += area.cells.length;
      this.#steps += 3 * area.cells.length;
      return table === undefined ? [] : [{ kind, area, table }];
    });
    return withOwn(work, tables, this.#around.system);
  }
}

/** A part with numbers alone first, and with all there may be where that comes to nothing. */
function quickOrSlow({ run, places }: Fast, slow: Closure): Closure {
  const at = Int32Array.from(places);
  return (frame) => {
    const value = run(frame.numbers, at, 0);
    return Number.isNaN(value) ? slow(frame) : value;
  };
}
