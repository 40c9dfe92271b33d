import type { Triple } from './types.ts';

/** Corners nearer than this are one, mm: a little more than what cutting the same corner two ways can differ by. */
export const WELD = 1e-5;
const CELL = 1e-3;

/** Points, of which those that are one are kept once. */
export class Welded {
  readonly points: Triple[] = [];
  readonly #buckets = new Map<number, number[]>();

  /** The number of a point; of the one that is there already, where there is one. */
  add(point: Triple): number {
    const [x, y, z] = [bucketsOf(point[0]), bucketsOf(point[1]), bucketsOf(point[2])];
    for (const i of x) {
      for (const j of y) {
        for (const k of z) {
          for (const known of this.#buckets.get(hash(i, j, k)) ?? []) {
            if (isNear(this.points[known]!, point)) return known;
          }
        }
      }
    }
    const added = this.points.push(point) - 1;
    const home = hash(x[0]!, y[0]!, z[0]!);
    const bucket = this.#buckets.get(home);
    if (bucket === undefined) this.#buckets.set(home, [added]);
    else bucket.push(added);
    return added;
  }
}

const isNear = (a: Triple, b: Triple): boolean =>
  Math.abs(a[0] - b[0]) < WELD && Math.abs(a[1] - b[1]) < WELD && Math.abs(a[2] - b[2]) < WELD;

/** The bucket of a coordinate, and the next one where it is that near. */
function bucketsOf(value: number): number[] {
  const home = Math.floor(value / CELL);
  const within = value - home * CELL;
  if (within < WELD) return [home, home - 1];
  return within > CELL - WELD ? [home, home + 1] : [home];
}

const hash = (i: number, j: number, k: number): number =>
  Math.imul(i, 73856093) ^ Math.imul(j, 19349663) ^ Math.imul(k, 83492791);
