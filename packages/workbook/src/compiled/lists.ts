/** Lists of numbers, one for each node: that of node `n` lies in `to` from `start[n]` up to `end[n]`. */
export interface Lists {
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly to: Int32Array;
}

/** The same lists, which grow and shrink: a list that needs more room moves to where there is some. */
export class Growing implements Lists {
  start: Int32Array;
  end: Int32Array;
  to: Int32Array;
  /** Where the room of each list ends. */
  #room: Int32Array;
  #filled: number;

  constructor({ start, end, to }: Lists) {
    this.start = start;
    this.end = end;
    this.to = to;
    this.#room = end.slice();
    this.#filled = to.length;
  }

  /** There are so many nodes, or more to come. */
  reach(nodes: number): void {
    if (nodes <= this.start.length) return;
    this.start = grown(this.start, nodes);
    this.end = grown(this.end, nodes);
    this.#room = grown(this.#room, nodes);
  }

  set(node: number, list: ArrayLike<number>): void {
    this.#makeRoom(node, list.length, false);
    const start = this.start[node] as number;
    for (let i = 0; i < list.length; i += 1) this.to[start + i] = list[i] as number;
    this.end[node] = start + list.length;
  }

  add(node: number, one: number): void {
    const count = (this.end[node] as number) - (this.start[node] as number);
    this.#makeRoom(node, count + 1, true);
    this.to[this.end[node] as number] = one;
    this.end[node] = (this.end[node] as number) + 1;
  }

  remove(node: number, one: number): void {
    const last = (this.end[node] as number) - 1;
    for (let i = this.start[node] as number; i <= last; i += 1) {
      if (this.to[i] !== one) continue;
      this.to[i] = this.to[last] as number;
      this.end[node] = last;
      return;
    }
  }

  #makeRoom(node: number, count: number, keep: boolean): void {
    const start = this.start[node] as number;
    if (start + count <= (this.#room[node] as number)) return;
    const room = keep ? count * 2 : count;
    const at = this.#filled;
    this.#filled += room;
    if (this.#filled > this.to.length) this.to = grown(this.to, this.#filled);
    const end = this.end[node] as number;
    if (keep) this.to.copyWithin(at, start, end);
    this.start[node] = at;
    this.end[node] = keep ? at + end - start : at;
    this.#room[node] = at + room;
  }
}

/** The same numbers with room for so many, and some more. */
function grown(from: Int32Array, to: number): Int32Array {
  const room = new Int32Array(Math.ceil(to * 1.5) + 16);
  room.set(from);
  return room;
}

/** Lists as one, each no longer than it is. */
export function packed(lists: readonly (ArrayLike<number> | undefined)[]): Lists {
  const start = new Int32Array(lists.length);
  const end = new Int32Array(lists.length);
  let filled = 0;
  for (let i = 0; i < lists.length; i += 1) {
    start[i] = filled;
    filled += lists[i]?.length ?? 0;
    end[i] = filled;
  }
  const to = new Int32Array(filled);
  for (let i = 0; i < lists.length; i += 1) {
    const list = lists[i];
    if (list !== undefined) to.set(list, start[i]);
  }
  return { start, end, to };
}

/** The same the other way round: who uses a node. */
export function turned({ start, end, to }: Lists, count: number): Lists {
  const first = new Int32Array(count);
  for (let node = 0; node < count; node += 1) {
    for (let i = start[node] as number; i < (end[node] as number); i += 1) {
      const used = to[i] as number;
      first[used] = (first[used] as number) + 1;
    }
  }
  let filled = 0;
  for (let node = 0; node < count; node += 1) {
    const users = first[node] as number;
    first[node] = filled;
    filled += users;
  }
  const next = first.slice();
  const from = new Int32Array(filled);
  for (let node = 0; node < count; node += 1) {
    for (let i = start[node] as number; i < (end[node] as number); i += 1) {
      const used = to[i] as number;
      from[next[used] as number] = node;
      next[used] = (next[used] as number) + 1;
    }
  }
  return { start: first, end: next, to: from };
}

/** So few numbers are looked for in a long list one by one. */
const FEW = 8;

/** Numbers that are not among others, each once. */
export function withoutThose(some: readonly number[], others: Int32Array): readonly number[] {
  const once = [...new Set(some)];
  if (once.length <= FEW) return once.filter((one) => !others.includes(one));
  const known = new Set(others);
  return once.filter((one) => !known.has(one));
}
