/**
 * The most valuable filling of each of several rooms with pieces of given sizes, each up to its own
 * limit. Branch and bound answers most questions of a parts list in a few dozen nodes; where it does
 * not, a table over the room does.
 */
export interface Fill {
  /** An upper bound of the value, equal to it where `exact`. */
  readonly most: number;
  readonly value: number;
  readonly counts: readonly number[];
  readonly exact: boolean;
}

/** Counts work, so that effort never depends on a clock. */
export interface Meter {
  left: number;
}

const EPS = 1e-12;

/**
 * @param sizes whole numbers above 0
 * @param values anything; pieces of no value are left out
 * @param limits most pieces of each size
 * @param rooms whole numbers, in rising order
 */
export function bestFills(
  sizes: readonly number[],
  values: ArrayLike<number>,
  limits: readonly number[],
  rooms: readonly number[],
  meter: Meter,
): Fill[] {
  const order: number[] = [];
  for (let i = 0; i < sizes.length; i += 1) {
    if ((values[i] as number) > EPS && (limits[i] as number) > 0) order.push(i);
  }
  order.sort(
    (a, b) =>
      (values[b] as number) / (sizes[b] as number) - (values[a] as number) / (sizes[a] as number) ||
      a - b,
  );
  const task = { sizes, values, limits, order };
  const fills: Fill[] = [];
  let table: Table | undefined;
  // Branching may take about as long as the table would.
  const nodes = Math.min(
    MOST_NODES,
    Math.max(LEAST_NODES, (rooms.at(-1) ?? 0) * order.length) / 16,
  );
  for (const room of rooms) {
    const found = table === undefined ? branch(task, room, nodes, meter) : undefined;
    if (found?.exact === true) {
      fills.push(found);
      continue;
    }
    table ??= makeTable(task, rooms.at(-1) ?? 0, meter);
    fills.push((table === undefined ? found : readTable(task, table, room)) ?? relaxed(task, room));
  }
  return fills;
}

interface Task {
  readonly sizes: readonly number[];
  readonly values: ArrayLike<number>;
  readonly limits: readonly number[];
  /** Pieces worth taking, the most value for their size first. */
  readonly order: readonly number[];
}

const LEAST_NODES = 32_000;
const MOST_NODES = 400_000;

function branch(
  { sizes, values, limits, order }: Task,
  room: number,
  most: number,
  meter: Meter,
): Fill {
  const n = order.length;
  const size = order.map((i) => sizes[i] as number);
  const value = order.map((i) => values[i] as number);
  const limit = order.map((i) => limits[i] as number);
  const smallest = new Array<number>(n + 1).fill(Number.POSITIVE_INFINITY);
  for (let k = n - 1; k >= 0; k -= 1)
    smallest[k] = Math.min(size[k] as number, smallest[k + 1] as number);
  const taken = new Array<number>(n).fill(0);
  let best = 0;
  let chosen = taken.slice();
  let nodes = 0;
  const walk = (k: number, left: number, sum: number): void => {
    nodes += 1;
    if (sum > best + EPS) {
      best = sum;
      chosen = taken.slice();
    }
    if (k === n || left < (smallest[k] as number)) return;
    const s = size[k] as number;
    const v = value[k] as number;
    const next = k + 1 < n ? (value[k + 1] as number) / (size[k + 1] as number) : 0;
    for (let c = Math.min(limit[k] as number, Math.floor(left / s)); c >= 0; c -= 1) {
      if (nodes > most) break;
      if (sum + c * v + (left - c * s) * next <= best + EPS) break;
      taken[k] = c;
      walk(k + 1, left - c * s, sum + c * v);
    }
    taken[k] = 0;
  };
  walk(0, room, 0);
  meter.left -= nodes;
  const exact = nodes <= most;
  const counts = spread(order, chosen, sizes.length);
  return { most: exact ? best : bound(size, value, limit, room), value: best, counts, exact };
}

/** Value where the last piece may be cut: never below the true one. */
function bound(
  size: readonly number[],
  value: readonly number[],
  limit: readonly number[],
  room: number,
): number {
  let left = room;
  let sum = 0;
  for (let k = 0; k < size.length; k += 1) {
    const c = Math.min(limit[k] as number, left / (size[k] as number));
    sum += c * (value[k] as number);
    left -= c * (size[k] as number);
    if (left <= 0) break;
  }
  return sum;
}

function relaxed({ sizes, values, limits, order }: Task, room: number): Fill {
  const most = bound(
    order.map((i) => sizes[i] as number),
    order.map((i) => values[i] as number),
    order.map((i) => limits[i] as number),
    room,
  );
  return { most, value: 0, counts: new Array<number>(sizes.length).fill(0), exact: false };
}

interface Table {
  readonly entries: readonly { readonly at: number; readonly copies: number }[];
  readonly best: Float64Array;
  readonly took: Uint8Array;
  readonly width: number;
}

const LARGEST_TABLE = 20_000_000;

function makeTable({ sizes, values, limits, order }: Task, room: number, meter: Meter) {
  const entries: { at: number; copies: number }[] = [];
  for (const i of order) {
    let rest = Math.min(limits[i] as number, Math.floor(room / (sizes[i] as number)));
    for (let copies = 1; rest > 0; copies *= 2) {
      const now = Math.min(copies, rest);
      entries.push({ at: i, copies: now });
      rest -= now;
    }
  }
  const width = room + 1;
  const steps = width * entries.length;
  if (steps > LARGEST_TABLE || steps > meter.left * 4) return undefined;
  meter.left -= steps / 4;
  const best = new Float64Array(width);
  const took = new Uint8Array(steps);
  for (let e = 0; e < entries.length; e += 1) {
    const { at, copies } = entries[e] as { at: number; copies: number };
    const size = copies * (sizes[at] as number);
    const value = copies * (values[at] as number);
    const row = e * width;
    for (let c = room; c >= size; c -= 1) {
      const sum = (best[c - size] as number) + value;
      if (sum > (best[c] as number) + EPS) {
        best[c] = sum;
        took[row + c] = 1;
      }
    }
  }
  return { entries, best, took, width } satisfies Table;
}

function readTable({ sizes }: Task, { entries, best, took, width }: Table, room: number): Fill {
  const counts = new Array<number>(sizes.length).fill(0);
  let left = room;
  for (let e = entries.length - 1; e >= 0; e -= 1) {
    if (took[e * width + left] !== 1) continue;
    const { at, copies } = entries[e] as { at: number; copies: number };
    counts[at] = (counts[at] as number) + copies;
    left -= copies * (sizes[at] as number);
  }
  const value = best[room] as number;
  return { most: value, value, counts, exact: true };
}

function spread(order: readonly number[], taken: readonly number[], n: number): number[] {
  const counts = new Array<number>(n).fill(0);
  order.forEach((i, k) => {
    counts[i] = taken[k] ?? 0;
  });
  return counts;
}
