import type { Meter } from './knapsack.ts';
import type { BoardKind, LengthsProblem } from './lengths-problem.ts';
import type { Pattern } from './master.ts';

export interface Filling {
  readonly pattern: Pattern;
  /** Price and rent of the board less the worth of what it gives. */
  readonly loss: number;
}

/** What pieces and boards are worth: duals of the relaxation. */
export interface Worths {
  readonly worth: readonly number[];
  readonly rent: readonly number[];
}

/**
 * Lists fillings of a kind of board: those that hold a given size (and nothing longer), to which no
 * wanted part can be added, and that lose no more than a given slack. The list is cut short when the
 * meter runs out. Made once for many lists, since it keeps its working arrays.
 */
export function fillingsOf(
  { sizes, kinds }: LengthsProblem,
  { worth, rent }: Worths,
  demand: readonly number[],
  meter: Meter,
): (kind: number, first: number, slack: number, found: Filling[]) => void {
  const n = sizes.length;
  // From each size on: the most worth a step of room can bring, and the smallest size wanted.
  const density = new Float64Array(n + 1);
  const smallest = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY);
  const counts = new Array<number>(n).fill(0);
  let list: Filling[] = [];
  let least = 0;
  let price = 0;
  let kind = 0;
  let longest = 0;
  const walk = (from: number, left: number, sum: number, leftOut: number): void => {
    meter.left -= 1;
    let i = from;
    if (meter.left <= 0 || sum + left * (density[i] as number) < least) return;
    if (left < (smallest[i] as number)) {
      // Something that was left out would still fit: another filling holds all this and more.
      if (left >= leftOut) return;
      list.push({ pattern: { kind, counts: counts.slice() }, loss: price - sum });
      return;
    }
    while ((demand[i] as number) === 0 || (sizes[i] as number) > left) i += 1;
    const size = sizes[i] as number;
    const has = demand[i] as number;
    const fewest = i === longest ? 1 : 0;
    for (let c = Math.min(has, Math.floor(left / size)); c >= fewest; c -= 1) {
      counts[i] = c;
      walk(
        i + 1,
        left - c * size,
        sum + c * (worth[i] as number),
        c < has && size < leftOut ? size : leftOut,
      );
    }
    counts[i] = 0;
  };
  return (ofKind, first, slack, found) => {
    const { room } = kinds[ofKind] as BoardKind;
    if (room < (sizes[first] as number)) return;
    for (let i = n - 1; i >= first; i -= 1) {
      const wanted = (demand[i] as number) > 0;
      const each = wanted ? (worth[i] as number) / (sizes[i] as number) : 0;
      density[i] = Math.max(density[i + 1] as number, each);
      smallest[i] = wanted
        ? Math.min(sizes[i] as number, smallest[i + 1] as number)
        : (smallest[i + 1] as number);
    }
    kind = ofKind;
    price = (kinds[kind] as BoardKind).price + (rent[kind] as number);
    least = price - slack;
    longest = first;
    list = found;
    walk(first, room, 0, Number.POSITIVE_INFINITY);
  };
}
