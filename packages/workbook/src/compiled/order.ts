import type { Lists } from './lists.ts';

export interface Ordered {
  /** Every node, each after all it uses; those in loops anywhere. */
  readonly order: Int32Array<ArrayBuffer>;
  /** Which loop a node lies in, counted from 1; 0 for none. */
  readonly loop: Int32Array;
  /** How many loops there are. */
  readonly loops: number;
}

/**
 * Puts nodes in an order in which they can be worked out, as near to their own order as that goes, and
 * finds the loops among them (Tarjan's strongly connected components, without recursion).
 */
export function ordered({ start, end, to }: Lists, count: number): Ordered {
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
    if (done - first === 1 && !to.subarray(start[node], end[node]).includes(node)) return;
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
      if (at < (end[node] as number)) {
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
  return { order, loop, loops };
}

function lower(low: Int32Array, node: number, to: number): void {
  if (to < (low[node] as number)) low[node] = to;
}
