/** A corner that stands out by less than this is none, mm. */
const FLAT = 1e-6;

/** Points as an eye sees them: right and up on the paper, and how near, mm. */
export interface Seen {
  /** To the right. */
  x: Float64Array;
  /** Upwards. */
  y: Float64Array;
  /** Towards the eye. */
  z: Float64Array;
}

/** The outline on the paper of what is convex in space. */
export class Outliner {
  readonly #seen: Seen;
  #sorted: Int32Array = new Int32Array(64);
  /** The corners of the outline that was asked for last, anticlockwise. */
  corners: Int32Array = new Int32Array(130);
  #count = 0;

  constructor(seen: Seen) {
    this.#seen = seen;
  }

  /** Finds the outline of some of the points: how many corners it has, fewer than three when it is a line. */
  of(points: Int32Array, start: number, end: number): number {
    if (end - start > this.#sorted.length) {
      this.#sorted = new Int32Array(2 * (end - start));
      this.corners = new Int32Array(4 * (end - start) + 2);
    }
    const count = this.#sort(points, start, end);
    const sorted = this.#sorted;
    this.#count = 0;
    for (let i = 0; i < count; i++) this.#chain(sorted[i] as number, 0);
    // The last point of each chain begins the other one.
    const upper = Math.max(0, this.#count - 1);
    this.#count = upper;
    for (let i = count - 1; i >= 0; i--) this.#chain(sorted[i] as number, upper);
    this.#count = Math.max(0, this.#count - 1);
    this.#simplify();
    return this.#count;
  }

  /** From left to right. Of points that fall on one spot of the paper, only the nearest is kept. */
  #sort(points: Int32Array, start: number, end: number): number {
    const { x, y, z } = this.#seen;
    const sorted = this.#sorted;
    let count = 0;
    for (let i = start; i < end; i++) {
      const point = points[i] as number;
      const px = x[point] as number;
      const py = y[point] as number;
      let place = count;
      let step = -1;
      while (place > 0) {
        const other = sorted[place - 1] as number;
        step = (x[other] as number) - px || (y[other] as number) - py;
        if (step <= 0) break;
        place--;
      }
      if (place > 0 && step === 0) {
        const other = sorted[place - 1] as number;
        if ((z[point] as number) > (z[other] as number)) sorted[place - 1] = point;
        continue;
      }
      for (let k = count; k > place; k--) sorted[k] = sorted[k - 1] as number;
      sorted[place] = point;
      count++;
    }
    return count;
  }

  /** Adds the next of sorted points to the chain below them, or above them when they come from the right. */
  #chain(point: number, first: number): void {
    const corners = this.corners;
    while (this.#count - first > 1 && !this.#turnsLeft(point)) this.#count--;
    corners[this.#count++] = point;
  }

  #turnsLeft(point: number): boolean {
    const { x, y } = this.#seen;
    const a = this.corners[this.#count - 2] as number;
    const b = this.corners[this.#count - 1] as number;
    const ax = x[a] as number;
    const ay = y[a] as number;
    return (
      ((x[b] as number) - ax) * ((y[point] as number) - ay) -
        ((y[b] as number) - ay) * ((x[point] as number) - ax) >
      0
    );
  }

  /** Without corners that rounding made: the sides beside them would run anywhere. */
  #simplify(): void {
    const corners = this.corners;
    for (let i = 0; i < this.#count && this.#count > 2; ) {
      const before = corners[i === 0 ? this.#count - 1 : i - 1] as number;
      const after = corners[i + 1 === this.#count ? 0 : i + 1] as number;
      if (this.#standsOut(before, corners[i] as number, after)) {
        i++;
        continue;
      }
      corners.copyWithin(i, i + 1, this.#count);
      this.#count--;
      // The one before may stand out less now.
      i = Math.max(0, i - 1);
    }
  }

  #standsOut(before: number, corner: number, after: number): boolean {
    const { x, y } = this.#seen;
    const ax = x[before] as number;
    const ay = y[before] as number;
    const bx = (x[corner] as number) - ax;
    const by = (y[corner] as number) - ay;
    const cx = (x[after] as number) - ax;
    const cy = (y[after] as number) - ay;
    const base = Math.sqrt(cx * cx + cy * cy);
    return Math.abs(bx * cy - by * cx) > FLAT * base && bx * bx + by * by > FLAT * FLAT;
  }
}
