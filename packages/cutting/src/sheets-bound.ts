import { costLadder } from './bounds.ts';
import type { SheetKind, SheetsProblem } from './sheets-problem.ts';
import { commonDivisor } from './units.ts';

/** Noise of sums of areas. */
const MARGIN = 1e-9;
const MOST_THRESHOLDS = 12;
const SMALLER = 1e-12;

/**
 * A cost no plan can be under, in money steps, with or without cuts from edge to edge: the cheapest
 * sheets that have the face of all parts and a kerf around each; and the number of sheets that dual
 * feasible functions of length and width ask for, at the least price.
 * Source: Fekete and Schepers, Mathematical Methods of Operations Research 60 (2004), 311-329 (value
 * from memory): the sum of f(length) x g(width) is a bound for every pair of such functions.
 */
export function sheetsBound({ panels, kinds }: SheetsProblem, cost: number): number {
  if (panels.length === 0) return 0;
  const open = kinds.filter(({ supply }) => supply > 0);
  const unit = Math.max(1, commonDivisor(open.map(({ price }) => price)));
  const face = panels.reduce((sum, { length, width }) => sum + length * width, 0) * (1 - MARGIN);
  const problem = {
    sizes: [face],
    demand: [1],
    kinds: open.map(({ index, length, width, price, supply }) => ({
      from: 'stock' as const,
      indexes: [index],
      room: length * width,
      price: price / unit,
      supply,
    })),
    priceUnit: unit,
  };
  const perFace = Math.min(...open.map(({ length, width, price }) => price / (length * width)));
  const least = Math.min(...open.map(({ price }) => price));
  const sheets = fewestSheets(panels, open) * least;
  const ladder = costLadder(problem, Math.round(cost / unit));
  return ladder.up(Math.max(face * perFace, sheets) / unit) * unit;
}

type Scale = (share: number) => number;

/** Fewest sheets, as if all were as long as the longest and as wide as the widest. */
function fewestSheets(panels: SheetsProblem['panels'], kinds: readonly SheetKind[]): number {
  const length = Math.max(...kinds.map((kind) => kind.length));
  const width = Math.max(...kinds.map((kind) => kind.width));
  const shares = panels.map((panel) => ({
    ways: [
      [panel.length / length, panel.width / width] as const,
      ...(panel.mayTurn ? [[panel.width / length, panel.length / width] as const] : []),
    ].filter(([along, across]) => along <= 1 + SMALLER && across <= 1 + SMALLER),
  }));
  const along = scalesFor(shares.flatMap(({ ways }) => ways.map(([one]) => one)));
  const across = scalesFor(shares.flatMap(({ ways }) => ways.map(([, one]) => one)));
  let most = 0;
  for (const f of along) {
    for (const g of across) {
      let sum = 0;
      for (const { ways } of shares) {
        let least = Number.POSITIVE_INFINITY;
        for (const [l, w] of ways) least = Math.min(least, f(l) * g(w));
        if (least < Number.POSITIVE_INFINITY) sum += least;
      }
      most = Math.max(most, sum);
    }
  }
  return Math.ceil(most * (1 - MARGIN));
}

/** Dual feasible functions of a share of a side: shares that add up to 1 keep adding up to 1. */
function scalesFor(shares: readonly number[]): Scale[] {
  const small = [...new Set(shares.filter((share) => share <= 0.5))].sort((a, b) => a - b);
  const stride = Math.max(1, Math.ceil(small.length / MOST_THRESHOLDS));
  return [
    (share) => share,
    ...[1, 2, 3, 4].map(stepped),
    ...small.filter((_, i) => i % stride === 0).map(cutOff),
  ];
}

/** Whole multiples of 1/(parts + 1) stay; others round down to a multiple of 1/parts. */
function stepped(parts: number): Scale {
  return (share) => {
    const times = share * (parts + 1);
    if (Math.abs(times - Math.round(times)) < 1e-9) return share;
    return Math.floor(times) / parts;
  };
}

/** What leaves less than the threshold counts as the whole, what is less than it as nothing. */
function cutOff(threshold: number): Scale {
  return (share) => {
    if (share > 1 - threshold + SMALLER) return 1;
    return share < threshold - SMALLER ? 0 : share;
  };
}
