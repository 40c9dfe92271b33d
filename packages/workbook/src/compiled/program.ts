import type { Closure } from './closure.ts';
import type { Fast, FastRun } from './fast.ts';
import { Growing, type Lists, packed, turned } from './lists.ts';
import { ordered } from './order.ts';

/** What a node is. */
export const NODE = {
  /** Cells of a range together: it has no value. */
  range: 0,
  cell: 1,
  /** A value that formulas share and no cell shows: a number that is written, the sum of a range. */
  inner: 2,
  /** A cell whose formula lies in a loop: it is not worked out. */
  looped: 3,
} as const;

/** So many nodes follow a node that is put behind the others at the most. */
const MOVED = 2_000;

/**
 * The formulas of a workbook as they are worked out: nodes, what each of them uses, and an order in which
 * each comes after all it uses. It changes with the formulas.
 */
export class Program {
  /** How many nodes there are. */
  count = 0;
  kind = new Uint8Array(0);
  /** Nodes by their ranks; -1 where a node went to another place. */
  order = new Int32Array(0);
  /** How many ranks are taken. */
  ranks = 0;
  rank = new Int32Array(0);
  /** Which loop a node lies in, counted from 1; 0 for none. */
  loop = new Int32Array(0);
  loops = 0;
  uses = new Growing(NO_LISTS);
  users = new Growing(NO_LISTS);
  /** How the value of a node is worked out; left out for values, ranges, and what is left to others. */
  readonly work: (Closure | undefined)[] = [];
  /** The same with numbers alone, for nodes where that will do. */
  readonly fast: (FastRun | undefined)[] = [];
  /** With the numbers of which nodes that is done. */
  readonly places = new Growing(NO_LISTS);
  /** Makes what works a node out with all there may be, where that has not been needed yet. */
  makeWork: (node: number) => Closure = () => {
    throw new RangeError('a node has nothing that works it out');
  };

  add(kind: (typeof NODE)[keyof typeof NODE]): number {
    const node = this.count;
    this.count += 1;
    if (node >= this.kind.length) this.kind = larger(this.kind, this.count, Uint8Array);
    this.kind[node] = kind;
    this.work.push(undefined);
    this.fast.push(undefined);
    return node;
  }

  /** A node is worked out like this from now on. */
  worksBy(node: number, work: Closure | undefined, fast: Fast | undefined): void {
    this.work[node] = work;
    this.fast[node] = fast?.run;
    if (fast === undefined) return;
    this.places.reach(this.count);
    this.places.set(node, fast.places);
  }

  /**
   * From here on nodes use others than before, and new nodes have their place.
   *
   * @returns whether all were put in order anew: loops may be others
   */
  settle(next: ReadonlyMap<number, ArrayLike<number>>): boolean {
    this.#reach();
    if (next.size > 500 + this.count / 8) {
      this.#use(next);
      this.#putInOrder();
      return true;
    }
    for (const [node, list] of next) this.#replace(node, list);
    for (let node = this.#ranked; node < this.count; node += 1) this.#toEnd(node);
    this.#ranked = this.count;
    const before = this.loops;
    if (before === 0) {
      let holds = this.ranks < this.count * 2 + 1_000;
      for (const node of next.keys()) holds &&= this.#isBehindItsUses(node);
      if (holds) return false;
    }
    this.#putInOrder();
    return before > 0 || this.loops > 0;
  }

  /** So many nodes have a rank. */
  #ranked = 0;

  #reach(): void {
    if (this.count <= this.rank.length) return;
    this.rank = larger(this.rank, this.count, Int32Array);
    this.loop = larger(this.loop, this.count, Int32Array);
    this.uses.reach(this.rank.length);
    this.users.reach(this.rank.length);
  }

  #use(next: ReadonlyMap<number, ArrayLike<number>>): void {
    const lists: ArrayLike<number>[] = [];
    const { start, end, to } = this.uses;
    for (let node = 0; node < this.count; node += 1) {
      lists.push(next.get(node) ?? to.subarray(start[node], end[node]));
    }
    const uses = packed(lists);
    this.uses = new Growing(uses);
    this.users = new Growing(turned(uses, this.count));
    this.uses.reach(this.rank.length);
    this.users.reach(this.rank.length);
  }

  #replace(node: number, list: ArrayLike<number>): void {
    const { start, end, to } = this.uses;
    const [from, until] = [start[node] as number, end[node] as number];
    if (until - from === list.length) {
      let i = 0;
      while (i < list.length && to[from + i] === list[i]) i += 1;
      if (i === list.length) return;
    }
    for (let i = from; i < until; i += 1) this.users.remove(to[i] as number, node);
    this.uses.set(node, list);
    for (let i = 0; i < list.length; i += 1) this.users.add(list[i] as number, node);
  }

  #toEnd(node: number): void {
    if (this.ranks >= this.order.length) {
      this.order = larger(this.order, this.ranks + 1, Int32Array);
    }
    this.rank[node] = this.ranks;
    this.order[this.ranks] = node;
    this.ranks += 1;
  }

  /**
   * Puts a node, and with it all that follows from it, behind the others where it uses what comes later.
   *
   * @returns whether that is done: not where it is part of a loop, or too many follow
   */
  #isBehindItsUses(node: number): boolean {
    const { start, end, to } = this.uses;
    let highest = -1;
    for (let i = start[node] as number; i < (end[node] as number); i += 1) {
      highest = Math.max(highest, this.rank[to[i] as number] as number);
    }
    const before = this.rank[node] as number;
    if (highest < before) return true;
    const following = new Set([node]);
    const { users } = this;
    for (const one of following) {
      for (let i = users.start[one] as number; i < (users.end[one] as number); i += 1) {
        following.add(users.to[i] as number);
      }
      if (following.size > MOVED) return false;
    }
    for (let i = start[node] as number; i < (end[node] as number); i += 1) {
      if (following.has(to[i] as number)) return false;
    }
    const rankOf = (one: number): number => this.rank[one] as number;
    for (const one of [...following].sort((a, b) => rankOf(a) - rankOf(b))) {
      this.order[rankOf(one)] = -1;
      this.#toEnd(one);
    }
    return true;
  }

  #putInOrder(): void {
    const { order, loop, loops } = ordered(this.uses, this.count);
    this.order = order;
    this.ranks = this.count;
    this.#ranked = this.count;
    for (let i = 0; i < order.length; i += 1) this.rank[order[i] as number] = i;
    this.loop.set(loop);
    this.loops = loops;
  }
}

const NO_LISTS: Lists = {
  start: new Int32Array(0),
  end: new Int32Array(0),
  to: new Int32Array(0),
};

type Room = Uint8Array<ArrayBuffer> | Int32Array<ArrayBuffer>;

function larger<T extends Room>(from: T, to: number, Kind: new (length: number) => T): T {
  const room = new Kind(Math.ceil(to * 1.5) + 64);
  room.set(from);
  return room;
}

/** Nodes that lie on a way from these to others: what uses the former, and the latter need. */
export function between(
  { users, uses, count }: Program,
  from: readonly number[],
  to: readonly number[],
): Uint8Array {
  const reached = reachedFrom(users, from, count);
  const needed = reachedFrom(uses, to, count);
  return reached.map((is, node) => is & (needed[node] ?? 0));
}

function reachedFrom(
  { start, end, to }: Lists,
  from: readonly number[],
  count: number,
): Uint8Array {
  const reached = new Uint8Array(count);
  const open = [...from];
  for (const node of from) reached[node] = 1;
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    for (let i = start[node] ?? 0; i < (end[node] ?? 0); i += 1) {
      const next = to[i] ?? 0;
      if (reached[next] === 1) continue;
      reached[next] = 1;
      open.push(next);
    }
  }
  return reached;
}
