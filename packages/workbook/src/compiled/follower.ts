import type { Pace } from '../port.ts';
import { LONGEST_TEXT } from '../results/meter.ts';
import { PERSON_MARK, person } from '../results/sentences.ts';
import type { Closure } from './closure.ts';
import type { Frame } from './frame.ts';
import { NODE, type Program } from './program.ts';
import { Failure, type Value } from './values.ts';

/** How many nodes are worked out between two looks at the pace. */
const BETWEEN_LOOKS = 256;
/** So many at first are looked at one by one: a formula may take long by itself. */
const AT_FIRST = 16;

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

/** Kinds of error whose sentence follows from kind and message alone; others quote what cells hold and say. */
const TOLD_ALONE: ReadonlySet<string> = new Set(['DIV_BY_ZERO', 'NUM', 'NA', 'NAME']);

/** Whether a cell shows the same with either value, and gives the same reason. */
function same(a: Value, b: Value): boolean {
  if (a === b) return true;
  return (
    a instanceof Failure &&
    b instanceof Failure &&
    a.type === b.type &&
    a.message === b.message &&
    a.root === b.root &&
    (TOLD_ALONE.has(a.type) || (a.type === 'ERROR' && a.message.startsWith(PERSON_MARK)))
  );
}

/**
 * Values of cells that follow changes: of what uses a cell that changed, and of nothing else. Where
 * `within` is given, only nodes that it names are worked out.
 */
export class Follower {
  readonly frame: Frame;
  readonly #program: Program;
  readonly #within: Uint8Array | undefined;
  /** Only the nodes that are worked out here, as they come after each other; all of them without. */
  readonly #own: Pick<Program, 'order' | 'rank'> | undefined;
  #due: Uint8Array;
  #changed: Int32Array;
  #first = Number.POSITIVE_INFINITY;
  #last = -1;

  constructor(program: Program, frame: Frame, within?: Uint8Array) {
    this.#program = program;
    this.frame = frame;
    this.#within = within;
    this.#own = within && ordering(program, within);
    this.#due = new Uint8Array(program.count);
    this.#changed = new Int32Array(program.count);
  }

  /** Some nodes are still to be worked out. */
  get pending(): boolean {
    return this.#last >= this.#first;
  }

  /** The program has more nodes, or another order. */
  programChanged(): void {
    const { count, ranks } = this.#program;
    if (count > this.#due.length) {
      const due = new Uint8Array(Math.ceil(count * 1.5));
      due.set(this.#due);
      this.#due = due;
      this.#changed = new Int32Array(due.length);
    }
    if (!this.pending) return;
    this.#first = 0;
    this.#last = ranks - 1;
  }

  /** A node that no formula works out has another value. */
  set(node: number, value: Value): boolean {
    // A zero has no sign.
    const next = value === 0 ? 0 : value;
    this.#due[node] = 0;
    if (same(this.frame.get(node), next)) return false;
    this.frame.put(node, next);
    this.#makeUsersDue(node);
    return true;
  }

  /** A node is to be worked out. */
  makeDue(node: number): void {
    if (this.#within !== undefined && this.#within[node] === 0) return;
    const at = (this.#own ?? this.#program).rank[node] as number;
    this.#due[node] = 1;
    if (at < this.#first) this.#first = at;
    if (at > this.#last) this.#last = at;
  }

  /**
   * Works out what follows from all that was set, as far as the pace allows, and answers with the cells
   * that changed: a view that holds until the next time.
   */
  follow(pace?: Pace): Int32Array {
    const { work, fast, kind, places } = this.#program;
    const { start, to } = places;
    const { order } = this.#own ?? this.#program;
    const { frame } = this;
    const { numbers } = frame;
    const due = this.#due;
    const changed = this.#changed;
    let count = 0;
    let worked = 0;
    for (let rank = this.#first; rank <= this.#last; rank += 1) {
      const node = order[rank] as number;
      if (node < 0 || due[node] === 0) continue;
      if (pace !== undefined && worked > 0 && (worked < AT_FIRST || worked % BETWEEN_LOOKS === 0)) {
        if (!pace()) {
          this.#first = rank;
          return changed.subarray(0, count);
        }
      }
      worked += 1;
      due[node] = 0;
      const is = kind[node];
      if (is === NODE.range) {
        this.#makeUsersDue(node);
        continue;
      }
      if (is === NODE.looped) continue;
      const run = fast[node];
      const number = run === undefined ? Number.NaN : run(numbers, to, start[node] as number);
      if (Number.isNaN(number)) {
        const closure =
          work[node] ?? (run === undefined ? undefined : this.#program.makeWork(node));
        if (closure === undefined) continue;
        const value = is === NODE.cell ? workedOut(closure, frame, node) : closure(frame);
        if (same(frame.get(node), value)) continue;
        frame.put(node, value);
      } else {
        if (numbers[node] === number) continue;
        frame.putNumber(node, number);
      }
      if (is === NODE.cell) {
        changed[count] = node;
        count += 1;
      }
      this.#makeUsersDue(node);
    }
    this.#first = Number.POSITIVE_INFINITY;
    this.#last = -1;
    return changed.subarray(0, count);
  }

  #makeUsersDue(node: number): void {
    const { users } = this.#program;
    const { rank } = this.#own ?? this.#program;
    const { to } = users;
    const within = this.#within;
    const end = users.end[node] as number;
    for (let i = users.start[node] as number; i < end; i += 1) {
      const user = to[i] as number;
      if (within !== undefined && within[user] === 0) continue;
      const at = rank[user] as number;
      this.#due[user] = 1;
      if (at < this.#first) this.#first = at;
      if (at > this.#last) this.#last = at;
    }
  }
}

/** Some nodes of a program in their order, without the others between them. */
function ordering(
  { order, ranks, count }: Program,
  within: Uint8Array,
): Pick<Program, 'order' | 'rank'> {
  const own = order.subarray(0, ranks).filter((node) => node >= 0 && within[node] === 1);
  const rank = new Int32Array(count);
  for (const [at, node] of own.entries()) rank[node] = at;
  return { order: own, rank };
}
