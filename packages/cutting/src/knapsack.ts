/** What fits into a length and is worth most. */
export interface Filled {
  /** How many of each. */
  readonly counts: readonly number[];
  readonly value: number;
  /** No filling is worth more than this; equal to `value` where the search was carried to its end. */
  readonly most: number;
}

/** Above this many places a table would cost more than a search. */
const WIDEST_TABLE = 12_000;
const MOST_NODES = 200_000;
/** So few pieces are searched sooner than a table is filled, unless the search gets lost. */
const FEW = 16;
const QUICK_NODES = 2_000;

/**
 * The most valuable filling of each of some lengths: `weights` whole and above 0, at most `limits[i]` of
 * each. Exact by one table of every length where that is short enough, else by a search with bounds.
 */
export function bestFillings(
  capacities: readonly number[],
  weights: readonly number[],
  values: readonly number[],
  limits: readonly number[],
): readonly Filled[] {
  const widest = Math.max(0, ...capacities);
  const fits: number[] = [];
  let unit = 0;
  for (let i = 0; i < weights.length; i += 1) {
    const weight = weights[i] ?? 0;
    if ((values[i] ?? 0) <= 1e-12 || (limits[i] ?? 0) <= 0 || weight > widest) continue;
    fits.push(i);
    unit = gcd(unit, weight);
  }
  if (fits.length === 0) {
    return capacities.map(() => ({ counts: weights.map(() => 0), value: 0, most: 0 }));
  }
  const tooWide = Math.floor(widest / unit) > WIDEST_TABLE;
  if (tooWide || fits.length <= FEW) {
    const nodes = tooWide ? MOST_NODES : QUICK_NODES;
    const found: Filled[] = [];
    for (const capacity of capacities) {
      const one = bySearch(capacity, fits, weights, values, limits, nodes);
      if (!tooWide && one.most > one.value + 1e-9) break;
      found.push(one);
    }
    if (found.length === capacities.length) return found;
  }
  return byTable(capacities, unit, fits, weights, values, limits);
}

export function gcd(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y > 0) [x, y] = [y, x % y];
  return x;
}

interface Bundle {
  readonly item: number;
  readonly count: number;
  readonly weight: number;
}

/** Bounded knapsack: each item split into bundles of 1, 2, 4 … so that a table of bundles suffices. */
function byTable(
  capacities: readonly number[],
  unit: number,
  fits: readonly number[],
  weights: readonly number[],
  values: readonly number[],
  limits: readonly number[],
): Filled[] {
  const places = Math.floor(Math.max(...capacities) / unit);
  const bundles: Bundle[] = [];
  for (const item of fits) {
    const weight = (weights[item] ?? 0) / unit;
    let left = Math.min(limits[item] ?? 0, Math.floor(places / weight));
    for (let count = 1; left > 0; count *= 2) {
      const taken = Math.min(count, left);
      left -= taken;
      bundles.push({ item, count: taken, weight: weight * taken });
    }
  }
  const size = places + 1;
  const best = new Float64Array(size);
  const taken = new Uint8Array(size * bundles.length);
  for (let b = 0; b < bundles.length; b += 1) {
    const { item, count, weight } = bundles[b] as Bundle;
    const value = (values[item] ?? 0) * count;
    const row = b * size;
    for (let at = places; at >= weight; at -= 1) {
      const other = (best[at - weight] as number) + value;
      if (other > (best[at] as number) + 1e-12) {
        best[at] = other;
        taken[row + at] = 1;
      }
    }
  }
  return capacities.map((capacity) => {
    const counts = weights.map(() => 0);
    let value = 0;
    let at = Math.floor(capacity / unit);
    for (let b = bundles.length - 1; b >= 0; b -= 1) {
      if (taken[b * size + at] !== 1) continue;
      const { item, count, weight } = bundles[b] as Bundle;
      counts[item] = (counts[item] ?? 0) + count;
      value += count * (values[item] ?? 0);
      at -= weight;
    }
    return { counts, value, most: value };
  });
}

/** Depth first, most value a length first, cut off by what the rest could bring at best. */
function bySearch(
  capacity: number,
  fits: readonly number[],
  weights: readonly number[],
  values: readonly number[],
  limits: readonly number[],
  mostNodes: number,
): Filled {
  const density = (i: number): number => (values[i] ?? 0) / (weights[i] ?? 1);
  const order = [...fits].sort(
    (a, b) => density(b) - density(a) || (weights[b] ?? 0) - (weights[a] ?? 0),
  );
  const bound = (from: number, room: number): number => {
    let [left, sum] = [room, 0];
    for (let k = from; k < order.length && left > 0; k += 1) {
      const i = order[k] ?? 0;
      const weight = weights[i] ?? 1;
      const whole = Math.min(limits[i] ?? 0, left / weight);
      sum += whole * (values[i] ?? 0);
      left -= whole * weight;
    }
    return sum;
  };
  const most = bound(0, capacity);
  let best = { counts: weights.map(() => 0), value: 0 };
  const now = weights.map(() => 0);
  let nodes = 0;
  const go = (k: number, room: number, value: number): void => {
    nodes += 1;
    if (value > best.value + 1e-12) best = { counts: [...now], value };
    const i = order[k];
    if (i === undefined || nodes > mostNodes) return;
    if (value + bound(k, room) <= best.value + 1e-9) return;
    const weight = weights[i] ?? 1;
    for (let count = Math.min(limits[i] ?? 0, Math.floor(room / weight)); count >= 0; count -= 1) {
      now[i] = count;
      go(k + 1, room - count * weight, value + count * (values[i] ?? 0));
    }
    now[i] = 0;
  };
  go(0, capacity, 0);
  return { ...best, most: nodes > mostNodes ? most : best.value };
}
