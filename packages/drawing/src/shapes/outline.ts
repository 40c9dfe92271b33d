/** A corner that stands out by less than this is none, mm. */
const FLAT = 1e-6;

/** The outline on the paper of what is convex in space. */
export class Outliner {
  readonly #x: Float64Array;
  readonly #y: Float64Array;
  readonly #z: Float64Array;

  /** Points on the paper, and how near they are to the eye, mm. */
  constructor(x: Float64Array, y: Float64Array, z: Float64Array) {
    this.#x = x;
    this.#y = y;
    this.#z = z;
  }

  /** The corners of the outline of some of the points, anticlockwise; fewer than three when it is a line. */
  of(points: Int32Array, start: number, end: number): number[] {
    const sorted = this.#sorted(points, start, end);
    const lower = this.#half(sorted);
    const upper = this.#half(sorted.reverse());
    lower.pop();
    upper.pop();
    return this.#simplified([...lower, ...upper]);
  }

  /** From left to right. Of points that fall on one spot of the paper, only the nearest is kept. */
  #sorted(points: Int32Array, start: number, end: number): number[] {
    const [x, y] = [this.#x, this.#y];
    const sorted: number[] = [];
    for (let i = start; i < end; i++) {
      const point = points[i] as number;
      const [px, py] = [x[point] as number, y[point] as number];
      let place = sorted.length;
      let other = -1;
      while (place > 0) {
        other = sorted[place - 1] as number;
        const step = (x[other] as number) - px || (y[other] as number) - py;
        if (step < 0) break;
        if (step === 0) {
          place = -1;
          break;
        }
        place--;
      }
      if (place < 0) this.#keepNearest(sorted, other, point);
      else sorted.splice(place, 0, point);
    }
    return sorted;
  }

  #keepNearest(sorted: number[], one: number, other: number): void {
    if ((this.#z[other] as number) > (this.#z[one] as number)) sorted[sorted.indexOf(one)] = other;
  }

  /** The chain below sorted points, or above them when they come from the right. */
  #half(sorted: readonly number[]): number[] {
    const chain: number[] = [];
    for (const point of sorted) {
      while (chain.length > 1 && !this.#turnsLeft(chain, point)) chain.pop();
      chain.push(point);
    }
    return chain;
  }

  #turnsLeft(chain: readonly number[], point: number): boolean {
    const [x, y] = [this.#x, this.#y];
    const a = chain[chain.length - 2] as number;
    const b = chain[chain.length - 1] as number;
    const [ax, ay] = [x[a] as number, y[a] as number];
    return (
      ((x[b] as number) - ax) * ((y[point] as number) - ay) -
        ((y[b] as number) - ay) * ((x[point] as number) - ax) >
      0
    );
  }

  /** Without corners that rounding made: the sides beside them would run anywhere. */
  #simplified(corners: number[]): number[] {
    for (let i = 0; i < corners.length && corners.length > 2; ) {
      const before = corners[(i + corners.length - 1) % corners.length] as number;
      const after = corners[(i + 1) % corners.length] as number;
      if (this.#standsOut(before, corners[i] as number, after)) i++;
      else {
        corners.splice(i, 1);
        // The one before may stand out less now.
        i = Math.max(0, i - 1);
      }
    }
    return corners;
  }

  #standsOut(before: number, corner: number, after: number): boolean {
    const [x, y] = [this.#x, this.#y];
    const [ax, ay] = [x[before] as number, y[before] as number];
    const [bx, by] = [(x[corner] as number) - ax, (y[corner] as number) - ay];
    const [cx, cy] = [(x[after] as number) - ax, (y[after] as number) - ay];
    const base = Math.hypot(cx, cy);
    return Math.abs(bx * cy - by * cx) > FLAT * base && bx * bx + by * by > FLAT * FLAT;
  }
}
