import { LONGEST_TEXT } from '../results/meter.ts';
import { person } from '../results/sentences.ts';
import type { Closure } from './closure.ts';
import type { Fast } from './fast.ts';
import type { Frame } from './frame.ts';
import type { Uses } from './order.ts';
import { Failure, type Value } from './values.ts';

/** The formulas of a workbook as they are worked out: nodes are cells and ranges, cells first. */
export interface Program {
  /** How many of the nodes are cells. */
  readonly cells: number;
  /** Nodes, each after all it uses. */
  readonly order: Int32Array;
  /** Where each node is in the order. */
  readonly rank: Int32Array;
  readonly users: Uses;
  readonly uses: Uses;
  /** How the cell of a node is worked out; left out for values, ranges, and what is left to others. */
  readonly work: readonly (Closure | undefined)[];
  /** The same with numbers alone, for cells where that will do. */
  readonly fast: readonly (Fast | undefined)[];
}

/** What the formula of a cell comes to with these values. */
export function workedOut(work: Closure, frame: Frame, slot: number): Value {
  const value = work(frame);
  if (typeof value === 'number') return value;
  if (value === null) return 0;
  if (value instanceof Failure) return value.begunIn(slot);
  return typeof value === 'string' && value.length > LONGEST_TEXT
    ? new Failure('VALUE', person('E18', LONGEST_TEXT), slot)
    : value;
}

export function same(a: Value, b: Value): boolean {
  if (a === b) return true;
  return (
    a instanceof Failure &&
    b instanceof Failure &&
    a.type === b.type &&
    a.message === b.message &&
    a.root === b.root
  );
}

/** Works out every cell once, in order. */
export function workAll({ order, work, fast }: Program, frame: Frame): void {
  for (const node of order) {
    const number = fast[node]?.(frame.numbers) ?? Number.NaN;
    if (!Number.isNaN(number)) frame.put(node, number);
    else {
      const closure = work[node];
      if (closure !== undefined) frame.put(node, workedOut(closure, frame, node));
    }
  }
}

/**
 * Values of cells that follow changes: of what uses a cell that changed, and of nothing else. Where
 * `within` is given, only nodes that it names are worked out.
 */
export class Follower {
  readonly frame: Frame;
  readonly #program: Program;
  readonly #within: Uint8Array | undefined;
  readonly #due: Uint8Array;
  readonly #changed: Int32Array;
  #first = 0;
  #last = -1;

  constructor(program: Program, frame: Frame, within?: Uint8Array) {
    this.#program = program;
    this.frame = frame;
    this.#within = within;
    this.#due = new Uint8Array(program.order.length);
    this.#changed = new Int32Array(program.cells);
    this.#first = program.order.length;
  }

  /** A cell that no formula here works out has another value. */
  set(slot: number, value: Value): boolean {
    // A zero has no sign.
    const next = value === 0 ? 0 : value;
    if (same(this.frame.get(slot), next)) return false;
    this.frame.put(slot, next);
    this.#makeDue(slot);
    return true;
  }

  /**
   * Works out what follows from all that was set, and answers with the cells that changed: a view that
   * holds until the next time.
   */
  follow(): Int32Array {
    const { order, work, fast, cells } = this.#program;
    const { frame } = this;
    const { numbers } = frame;
    const due = this.#due;
    const changed = this.#changed;
    let count = 0;
    for (let rank = this.#first; rank <= this.#last; rank += 1) {
      if (due[rank] === 0) continue;
      due[rank] = 0;
      const node = order[rank] as number;
      if (node < cells) {
        const number = fast[node]?.(numbers) ?? Number.NaN;
        if (Number.isNaN(number)) {
          const closure = work[node];
          if (closure === undefined) continue;
          const value = workedOut(closure, frame, node);
          if (same(frame.get(node), value)) continue;
          frame.put(node, value);
        } else {
          if (numbers[node] === number) continue;
          frame.putNumber(node, number);
        }
        changed[count] = node;
        count += 1;
      }
      this.#makeDue(node);
    }
    this.#first = order.length;
    this.#last = -1;
    return changed.subarray(0, count);
  }

  #makeDue(node: number): void {
    const { rank, users } = this.#program;
    const within = this.#within;
    const end = users.start[node + 1] as number;
    for (let i = users.start[node] as number; i < end; i += 1) {
      const user = users.to[i] as number;
      if (within !== undefined && within[user] === 0) continue;
      const at = rank[user] as number;
      this.#due[at] = 1;
      if (at < this.#first) this.#first = at;
      if (at > this.#last) this.#last = at;
    }
  }
}

/** Nodes that lie on a way from these to others: what uses the former, and the latter need. */
export function between(
  { users, uses, order }: Program,
  from: readonly number[],
  to: readonly number[],
): Uint8Array {
  const reached = reachedFrom(users, from, order.length);
  const needed = reachedFrom(uses, to, order.length);
  return reached.map((is, node) => is & (needed[node] ?? 0));
}

function reachedFrom({ start, to }: Uses, from: readonly number[], count: number): Uint8Array {
  const reached = new Uint8Array(count);
  const open = [...from];
  for (const node of from) reached[node] = 1;
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    for (let i = start[node] ?? 0; i < (start[node + 1] ?? 0); i += 1) {
      const next = to[i] ?? 0;
      if (reached[next] === 1) continue;
      reached[next] = 1;
      open.push(next);
    }
  }
  return reached;
}
