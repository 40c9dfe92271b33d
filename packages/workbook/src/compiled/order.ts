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

/** Puts nodes in an order in which they can be worked out, and finds the loops among them. */
export function ordered(uses: Uses, users: Uses): Ordered {
  const count = uses.start.length - 1;
  const waits = new Int32Array(count);
  for (let n = 0; n < count; n += 1) waits[n] = (uses.start[n + 1] ?? 0) - (uses.start[n] ?? 0);
  const order = new Int32Array(count);
  const loop = new Int32Array(count);
  const placed = new Uint8Array(count);
  let done = 0;
  let next = 0;
  const place = (node: number): void => {
    placed[node] = 1;
    order[done++] = node;
  };
  const follow = (): void => {
    for (; next < done; next += 1) {
      const node = order[next] ?? 0;
      for (let i = users.start[node] ?? 0; i < (users.start[node + 1] ?? 0); i += 1) {
        const user = users.to[i] ?? 0;
        waits[user] = (waits[user] ?? 0) - 1;
        if (waits[user] === 0 && placed[user] === 0) place(user);
      }
    }
  };
  for (let n = 0; n < count; n += 1) if (waits[n] === 0) place(n);
  follow();
  if (done < count) {
    markLoops(uses, placed, loop);
    for (let n = 0; n < count; n += 1) if (loop[n] !== 0 && placed[n] === 0) place(n);
    follow();
  }
  return { order, loop };
}

/** Finds what leads back to itself among nodes that are not placed (Tarjan), without recursion. */
function markLoops({ start, to }: Uses, placed: Uint8Array, loop: Int32Array): void {
  const count = start.length - 1;
  const entered = new Int32Array(count);
  const low = new Int32Array(count);
  const on = new Uint8Array(count);
  const stack: number[] = [];
  let clock = 0;
  let loops = 0;
  const close = (node: number): void => {
    const together: number[] = [];
    for (;;) {
      const one = stack.pop() ?? node;
      on[one] = 0;
      together.push(one);
      if (one === node) break;
    }
    let itself = false;
    for (let i = start[node] ?? 0; i < (start[node + 1] ?? 0); i += 1) itself ||= to[i] === node;
    if (together.length === 1 && !itself) return;
    loops += 1;
    for (const one of together) loop[one] = loops;
  };
  for (let root = 0; root < count; root += 1) {
    if (placed[root] === 1 || entered[root] !== 0) continue;
    const path: { readonly node: number; next: number }[] = [];
    const enter = (node: number): void => {
      clock += 1;
      entered[node] = clock;
      low[node] = clock;
      on[node] = 1;
      stack.push(node);
      path.push({ node, next: start[node] ?? 0 });
    };
    enter(root);
    for (let top = path.at(-1); top !== undefined; top = path.at(-1)) {
      const { node } = top;
      if (top.next < (start[node + 1] ?? 0)) {
        const used = to[top.next] ?? 0;
        top.next += 1;
        if (placed[used] === 1) continue;
        if (entered[used] === 0) enter(used);
        else if (on[used] === 1) low[node] = Math.min(low[node] ?? 0, entered[used] ?? 0);
        continue;
      }
      path.pop();
      const above = path.at(-1);
      if (above !== undefined) {
        low[above.node] = Math.min(low[above.node] ?? 0, low[node] ?? 0);
      }
      if (low[node] === entered[node]) close(node);
    }
  }
}
