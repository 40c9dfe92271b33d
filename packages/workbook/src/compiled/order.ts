/** What each node uses, in rows laid one after the other: those of node `n` from `start[n]` on. */
export interface Uses {
  readonly start: Int32Array;
  readonly to: Int32Array;
}

/** Lists of numbers as one. */
export function packed(lists: readonly (readonly number[] | undefined)[]): Uses {
  const start = new Int32Array(lists.length + 1);
  for (const [i, list] of lists.entries()) start[i + 1] = (start[i] ?? 0) + (list?.length ?? 0);
  const to = new Int32Array(start.at(-1) ?? 0);
  let at = 0;
  for (const list of lists) for (const one of list ?? []) to[at++] = one;
  return { start, to };
}

/** The same the other way round: who uses a node. */
export function turned({ start, to }: Uses): Uses {
  const count = start.length - 1;
  const back = new Int32Array(count + 1);
  for (const one of to) back[one + 1] = (back[one + 1] ?? 0) + 1;
  for (let i = 0; i < count; i += 1) back[i + 1] = (back[i + 1] ?? 0) + (back[i] ?? 0);
  const next = back.slice();
  const from = new Int32Array(to.length);
  for (let node = 0; node < count; node += 1) {
    for (let i = start[node] ?? 0; i < (start[node + 1] ?? 0); i += 1) {
      const used = to[i] ?? 0;
      from[next[used] ?? 0] = node;
      next[used] = (next[used] ?? 0) + 1;
    }
  }
  return { start: back, to: from };
}

export interface Ordered {
  /** Every node, each after all it uses; those in loops anywhere. */
  readonly order: Int32Array;
  /** Which loop a node lies in, counted from 1; 0 for none. */
  readonly loop: Int32Array;
}

/**
 * Puts nodes in an order in which they can be worked out, as near to their own order as that goes, and
 * finds the loops among them (Tarjan's strongly connected components, without recursion).
 */
export function ordered({ start, to }: Uses): Ordered {
  const count = start.length - 1;
  const order = new Int32Array(count);
  const loop = new Int32Array(count);
  const entered = new Int32Array(count);
  const low = new Int32Array(count);
  /** The next of what a node uses to be looked at. */
  const next = start.slice(0, count);
  const onStack = new Uint8Array(count);
  const stack: number[] = [];
  const path: number[] = [];
  let clock = 0;
  let loops = 0;
  let done = 0;
  const close = (node: number): void => {
    const first = done;
    for (let one = -1; one !== node; ) {
      one = stack.pop() ?? node;
      onStack[one] = 0;
      order[done++] = one;
    }
    if (done - first === 1 && !usesItself(start, to, node)) return;
    loops += 1;
    for (let i = first; i < done; i += 1) loop[order[i] as number] = loops;
  };
  const enter = (node: number): void => {
    clock += 1;
    entered[node] = clock;
    low[node] = clock;
    onStack[node] = 1;
    stack.push(node);
    path.push(node);
  };
  for (let root = 0; root < count; root += 1) {
    if (entered[root] !== 0) continue;
    enter(root);
    for (let node = path.at(-1); node !== undefined; node = path.at(-1)) {
      const at = next[node] as number;
      if (at < (start[node + 1] as number)) {
        const used = to[at] as number;
        next[node] = at + 1;
        if (entered[used] === 0) enter(used);
        else if (onStack[used] === 1) lower(low, node, entered[used] as number);
        continue;
      }
      path.pop();
      const above = path.at(-1);
      if (above !== undefined) lower(low, above, low[node] as number);
      if (low[node] === entered[node]) close(node);
    }
  }
  return { order, loop };
}

function lower(low: Int32Array, node: number, to: number): void {
  if (to < (low[node] as number)) low[node] = to;
}

function usesItself(start: Int32Array, to: Int32Array, node: number): boolean {
  return to.subarray(start[node], start[node + 1]).includes(node);
}
