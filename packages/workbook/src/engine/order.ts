import type { Pace } from '../port.ts';

/** What stands at each number; a number whose node is gone has none. */
export type Nodes = readonly (object | undefined)[];

/** The numbers of the nodes that use each node directly; those of nodes that are gone may be among them. */
export type Edges = readonly (readonly (number | undefined)[] | undefined)[];

/** How much is done between two looks at the pace: the clock costs more than a step. */
const STEPS_BETWEEN_LOOKS = 512;

/** Of a node that is in the order already. */
const CLOSED = Number.POSITIVE_INFINITY;

/**
 * The order in which what follows from some nodes has to be looked at, and what is on a cycle
 * (R. Tarjan, "Depth-first search and linear graph algorithms", SIAM J. Comput. 1 (1972) 146–160).
 * Keeps its room from one time to the next: most changes reach a few nodes of very many.
 */
export class Order {
  #nodes: Nodes = [];
  #edges: Edges = [];
  #room = 0;
  /** When a node was entered, by a clock that never goes back: before `#since` is not in this run. */
  #entered = new Float64Array(0);
  #low = new Float64Array(0);
  #due = new Float64Array(0);
  #cycled = new Float64Array(0);
  #clock = 1;
  #since = 1;
  #seeds: readonly number[] = [];
  #nextSeed = 0;
  readonly #path: number[] = [];
  /** How many edges of each node on the path were followed. */
  readonly #followed: number[] = [];
  readonly #open: number[] = [];
  #finished: number[] = [];

  begin(seeds: readonly number[], nodes: Nodes, edges: Edges): void {
    this.#nodes = nodes;
    this.#edges = edges;
    this.#grow(nodes.length);
    this.#clock += 1;
    this.#since = this.#clock;
    this.#seeds = seeds;
    this.#nextSeed = 0;
    this.#path.length = 0;
    this.#followed.length = 0;
    this.#open.length = 0;
    this.#finished = [];
    for (const id of seeds) this.#due[id] = this.#since;
  }

  isDue(id: number): boolean {
    return this.#due[id] === this.#since;
  }

  isOnCycle(id: number): boolean {
    return this.#cycled[id] === this.#since;
  }

  /** Everything that uses this node directly has to be looked at. */
  makeDue(id: number): void {
    for (const next of this.#edges[id] ?? []) {
      if (next !== undefined) this.#due[next] = this.#since;
    }
  }

  /** The nodes, each after all that use it; `undefined` where the pace stopped it before the end. */
  goOn(pace: Pace | undefined): number[] | undefined {
    for (;;) {
      for (let steps = 0; steps < STEPS_BETWEEN_LOOKS; steps += 1) {
        const node = this.#path.at(-1);
        if (node !== undefined) steps += this.#step(node);
        else if (this.#nextSeed < this.#seeds.length) this.#enterSeed();
        else return this.#finished;
      }
      if (pace !== undefined && !pace()) return undefined;
    }
  }

  #enterSeed(): void {
    const seed = this.#seeds[this.#nextSeed];
    this.#nextSeed += 1;
    if (seed !== undefined && !this.#isEntered(seed)) this.#enter(seed);
  }

  #enter(id: number): void {
    this.#clock += 1;
    this.#entered[id] = this.#clock;
    this.#low[id] = this.#clock;
    this.#path.push(id);
    this.#followed.push(0);
    this.#open.push(id);
  }

  #isEntered(id: number): boolean {
    return (this.#entered[id] ?? 0) > this.#since;
  }

  /** Follows edges of the last node on the path up to one that leads on; how many it took. */
  #step(id: number): number {
    const edges = this.#edges[id] ?? [];
    const from = this.#followed.at(-1) ?? 0;
    for (let at = from; at < edges.length; at += 1) {
      const next = edges[at];
      if (next === undefined || this.#nodes[next] === undefined) continue;
      if (!this.#isEntered(next)) {
        this.#followed[this.#followed.length - 1] = at + 1;
        this.#enter(next);
        return at - from;
      }
      if (next === id) this.#cycled[id] = this.#since;
      this.#lower(id, this.#low[next] === CLOSED ? CLOSED : (this.#entered[next] ?? CLOSED));
    }
    this.#leave(id);
    return edges.length - from;
  }

  #lower(id: number, to: number): void {
    if (to < (this.#low[id] ?? CLOSED)) this.#low[id] = to;
  }

  #leave(id: number): void {
    this.#path.pop();
    this.#followed.pop();
    const low = this.#low[id] ?? CLOSED;
    const before = this.#path.at(-1);
    if (low < (this.#entered[id] ?? 0)) {
      if (before !== undefined) this.#lower(before, low);
      return;
    }
    // All that can reach each other stand open together, this one first.
    const together = this.#open.splice(this.#open.lastIndexOf(id));
    for (const one of together) {
      this.#low[one] = CLOSED;
      if (together.length > 1) this.#cycled[one] = this.#since;
      this.#finished.push(one);
    }
  }

  #grow(to: number): void {
    if (to <= this.#room) return;
    this.#room = to * 2;
    const larger = (from: Float64Array) => {
      const room = new Float64Array(this.#room);
      room.set(from);
      return room;
    };
    this.#entered = larger(this.#entered);
    this.#low = larger(this.#low);
    this.#due = larger(this.#due);
    this.#cycled = larger(this.#cycled);
  }
}
