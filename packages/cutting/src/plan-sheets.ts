import { CuttingFault } from './fault.ts';
import type { Meter } from './knapsack.ts';
import { remembered } from './remember.ts';
import { sheetsBound } from './sheets-bound.ts';
import {
  type Choice,
  type PackedSheet,
  type Packing,
  pack,
  type Rule,
  type Split,
} from './sheets-pack.ts';
import { presentedSheets } from './sheets-present.ts';
import {
  fits,
  type Panel,
  type SheetKind,
  type SheetsProblem,
  sheetsProblem,
} from './sheets-problem.ts';
import type { SheetsJob, SheetsPlan } from './sheets-types.ts';

const KEPT = 16;
/** Free pieces looked at: about a hundred in a microsecond. */
const WORK = 20_000_000;
const SHUFFLES = 400;

/**
 * Rectangular parts from sheets, every cut from edge to edge of the piece it divides, with where each
 * part lies and the order of cuts.
 *
 * Parts are cut off the corners of free pieces in several hundred orders and manners, the same ones
 * each time, and the plan of least cost is taken. That is a heuristic: `bound` says what no plan can
 * be under, and `proven` that the plan meets it. Grain runs along the sheet's length, and a part
 * turns only where it may.
 * @throws CuttingFault with a sentence that names the part or sheet
 * Source: kerf, trim and grain are common practice, no source.
 */
export const planSheets: (job: SheetsJob) => SheetsPlan = remembered((job: SheetsJob) => {
  const problem = sheetsProblem(job);
  if (problem.panels.length === 0) return presentedSheets(job, { sheets: [], cost: 0 }, 0);
  const meter: Meter = { left: WORK };
  const packing = bestPacking(problem, job.first, meter);
  return presentedSheets(job, packing, sheetsBound(problem, packing.cost));
}, KEPT);

const ORDERS: readonly ((panel: Panel) => number)[] = [
  ({ length, width }) => length * width,
  ({ length }) => length,
  ({ width }) => width,
  ({ length, width }) => Math.max(length, width),
  ({ length, width }) => length + width,
];
const SPLITS: readonly Split[] = ['rip', 'cross', 'long', 'short', 'even', 'uneven'];
const CHOICES: readonly Choice[] = ['area', 'side', 'sides'];

function bestPacking(
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
