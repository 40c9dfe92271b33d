import { CuttingFault } from './fault.ts';
import type { Meter } from './knapsack.ts';
import { purchases } from './purchases.ts';
import { sheetsBound } from './sheets-bound.ts';
import {
  type Choice,
  type PackedSheet,
  type Packing,
  pack,
  type Rule,
  type Split,
} from './sheets-pack.ts';
import { fits, type Panel, type SheetKind, type SheetsProblem } from './sheets-problem.ts';

const SHUFFLES = 300;

const ORDERS: readonly ((panel: Panel) => number)[] = [
  ({ length, width }) => length * width,
  ({ length }) => length,
  ({ width }) => width,
  ({ length, width }) => Math.max(length, width),
  ({ length, width }) => length + width,
];
const SPLITS: readonly Split[] = ['rip', 'cross', 'long', 'short', 'even', 'uneven'];
const CHOICES: readonly Choice[] = ['area', 'side', 'sides'];

/**
 * The best of many packings: orders of panels by size, ways to divide a piece, ways to choose one, each
 * kind of sheet as the usual one; then purchases of mixed sheets that cost less; then orders close to
 * the best. Stops where the bound is met.
 * @throws CuttingFault `supply-short`
 */
export function bestPacking(
  problem: SheetsProblem,
  first: 'rip' | 'cross' | undefined,
  meter: Meter,
): Packing {
  let best: Packing | undefined;
  let rule: Rule | undefined;
  let order: readonly Panel[] = [];
  let bound = 0;
  const splits = first === undefined ? SPLITS : [first];
  const attempt = (panels: readonly Panel[], by: Rule): boolean => {
    const packing = pack(problem, panels, by, meter);
    if (packing === undefined) return false;
    const found = shrunkSheets(problem, packing, splits, meter);
    if (best === undefined || found.cost < best.cost || isTighter(found, best)) {
      if (best === undefined || found.cost < best.cost) bound = sheetsBound(problem, found.cost);
      best = found;
      rule = by;
      order = panels;
    }
    return best.cost <= bound;
  };
  for (const by of ORDERS) {
    const panels = [...problem.panels].sort((a, b) => by(b) - by(a) || compare(a, b));
    for (const split of splits) {
      for (const choice of CHOICES) {
        for (let usual = 0; usual < problem.kinds.length; usual += 1) {
          if (attempt(panels, { split, choice, usual })) return best as unknown as Packing;
        }
      }
    }
  }
  if (best !== undefined && problem.kinds.length > 1) {
    best = mixed(problem, best, bound, splits, meter);
    if (best.cost <= bound) return best;
  }
  const random = numbers(1);
  for (let n = 0; n < SHUFFLES && rule !== undefined && meter.left > 0; n += 1) {
    const { usual } = rule;
    const split = splits[Math.floor(random() * splits.length)] as Split;
    const choice = CHOICES[Math.floor(random() * CHOICES.length)] as Choice;
    if (attempt(swapped(order, random), { split, choice, usual })) break;
  }
  if (best === undefined) {
    throw new CuttingFault(
      'supply-short',
      'No plan was found that gets every part out of the sheets listed. Raise a supply, or add a size.',
    );
  }
  return best;
}

/** How many purchases of about one cost are tried before a cheaper or dearer one. */
const BESIDE = 4;

/** Looks for a cheaper purchase that can be packed, halving what lies between bound and cost. */
function mixed(
  problem: SheetsProblem,
  known: Packing,
  bound: number,
  splits: readonly Split[],
  meter: Meter,
): Packing {
  const { kinds, panels } = problem;
  const face = panels.reduce((sum, { length, width }) => sum + length * width, 0);
  const roomy = (counts: readonly number[]): boolean =>
    kinds.reduce((sum, { length, width }, k) => sum + length * width * (counts[k] as number), 0) >=
    face;
  const listed = (purchases(kinds, bound, known.cost) ?? []).filter(({ counts }) => roomy(counts));
  let best = known;
  let [low, high] = [0, listed.length];
  while (low < high && meter.left > 0) {
    const middle = Math.floor((low + high) / 2);
    let found: Packing | undefined;
    for (const { counts } of listed.slice(middle, Math.min(high, middle + BESIDE))) {
      found = packInto(problem, counts, splits, meter);
      if (found !== undefined) break;
    }
    if (found === undefined) {
      low = middle + BESIDE;
      continue;
    }
    if (found.cost < best.cost) best = found;
    high = middle;
  }
  return best;
}

function packInto(
  problem: SheetsProblem,
  counts: readonly number[],
  splits: readonly Split[],
  meter: Meter,
): Packing | undefined {
  const kinds = problem.kinds.map((kind, k) => ({ ...kind, supply: counts[k] as number }));
  const fixed: SheetsProblem = { ...problem, kinds };
  for (const by of ORDERS) {
    const panels = [...problem.panels].sort((a, b) => by(b) - by(a) || compare(a, b));
    for (const split of splits) {
      for (let usual = 0; usual < kinds.length; usual += 1) {
        if (counts[usual] === 0) continue;
        const packing = pack(fixed, panels, { split, choice: 'side', usual }, meter);
        if (packing !== undefined) return packing;
      }
    }
  }
  return undefined;
}

/** Of the same cost and number of sheets, the one whose emptiest sheet holds less. */
function isTighter(a: Packing, b: Packing): boolean {
  if (a.cost !== b.cost) return false;
  if (a.sheets.length !== b.sheets.length) return a.sheets.length < b.sheets.length;
  return leastFace(a) < leastFace(b);
}

const leastFace = ({ sheets }: Packing): number =>
  Math.min(
    ...sheets.map(({ panels }) =>
      panels.reduce((sum, { length, width }) => sum + length * width, 0),
    ),
  );

/** Panels of the same measure of size, in a fixed order whatever the order of the list. */
function compare(a: Panel, b: Panel): number {
  return b.length - a.length || b.width - a.width || Number(a.mayTurn) - Number(b.mayTurn);
}

/** Tries what each sheet holds on every cheaper sheet. */
function shrunkSheets(
  problem: SheetsProblem,
  packing: Packing,
  splits: readonly Split[],
  meter: Meter,
): Packing {
  const { kinds } = problem;
  if (kinds.length === 1) return packing;
  const supply = kinds.map((kind) => kind.supply);
  for (const { kind } of packing.sheets) supply[kind] = (supply[kind] as number) - 1;
  const sheets = packing.sheets.map((sheet) => {
    const smaller = kinds
      .map((kind, at) => ({ ...kind, at }))
      .filter(({ price, at }) => price < priceOf(kinds, sheet) && (supply[at] as number) > 0)
      .sort((a, b) => a.price - b.price);
    for (const kind of smaller) {
      const fitted = onto(kind, kind.at, sheet, splits, meter);
      if (fitted === undefined) continue;
      supply[sheet.kind] = (supply[sheet.kind] as number) + 1;
      supply[kind.at] = (supply[kind.at] as number) - 1;
      return fitted;
    }
    return sheet;
  });
  return { sheets, cost: sheets.reduce((sum, sheet) => sum + priceOf(kinds, sheet), 0) };
}

const priceOf = (kinds: readonly SheetKind[], { kind }: PackedSheet): number =>
  (kinds[kind] as SheetKind).price;

/** All panels of a sheet on a single one of another kind, if that is found to go. */
function onto(
  kind: SheetKind,
  at: number,
  { panels }: PackedSheet,
  splits: readonly Split[],
  meter: Meter,
): PackedSheet | undefined {
  const face = panels.reduce((sum, { length, width }) => sum + length * width, 0);
  if (face > kind.length * kind.width || panels.some((panel) => !fits(panel, kind))) {
    return undefined;
  }
  const one: SheetsProblem = { panels, kinds: [{ ...kind, supply: 1 }] };
  for (const split of splits) {
    const packing = pack(one, panels, { split, choice: 'side', usual: 0 }, meter);
    const sheet = packing?.sheets[0];
    if (sheet !== undefined) return { ...sheet, kind: at };
  }
  return undefined;
}

/** A few neighbours-at-random changed places: an order close to the best one so far. */
function swapped(panels: readonly Panel[], random: () => number): Panel[] {
  const other = [...panels];
  const swaps = 1 + Math.floor(random() * Math.max(1, Math.min(8, panels.length / 4)));
  for (let n = 0; n < swaps; n += 1) {
    const a = Math.floor(random() * other.length);
    const b = Math.floor(random() * other.length);
    [other[a], other[b]] = [other[b] as Panel, other[a] as Panel];
  }
  return other;
}

/** Numbers from 0 to 1, the same each time: linear congruential, constants of ANSI C. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
}
