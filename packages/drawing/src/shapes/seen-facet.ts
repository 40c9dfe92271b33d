import type { Facet } from '@kerfbook/solids';
import type { Outline } from '../visible-face.ts';
import { type CellsSeen, SIDE } from './cells-seen.ts';
import { ConvexPieces, SLIVER } from './convex-pieces.ts';
import { PLANE } from './ready-solid.ts';

/** A facet that looks towards the eye, and what can be seen of it. */
export interface SeenFacet {
  /** As the solid has it, with its normal, and the surface it belongs to. */
  readonly facet: Facet;
  /** Convex outlines on the paper that do not overlap, mm. */
  readonly outlines: readonly Outline[];
}

/**
 * Takes from one facet after the other what cells before it hide. Over a facet, the depth of its
 * plane and of any other is linear in the place on the paper, so that whatever bounds what a cell
 * hides is a straight line there, and the rest falls into convex outlines.
 */
export class FacetCutter {
  readonly #cells: CellsSeen;
  readonly #pieces = new ConvexPieces();
  /** x and y of its corners on the paper, and how near they are. */
  #corners: Float64Array = new Float64Array(64);
  #depths: Float64Array = new Float64Array(32);
  #count = 0;
  /** Around it on the paper. */
  left = 0;
  right = 0;
  bottom = 0;
  top = 0;
  /** Its farthest and its nearest corner. */
  far = 0;
  #near = 0;
  /** Its plane, by its normal to the right, up and towards the eye and its offset. */
  #nx = 0;
  #ny = 0;
  #nz = 1;
  #offset = 0;
  /** Of its plane: how the depth changes to the right and upwards, and at the origin. */
  #slopeX = 0;
  #slopeY = 0;
  #depth = 0;

  constructor(cells: CellsSeen) {
    this.#cells = cells;
  }

  /**
   * Begins with another facet that looks towards the eye: its points, counted from the first of its solid, and its
   * plane by its normal to the right, up and towards the eye and its offset.
   */
  begin(
    points: Int32Array,
    start: number,
    end: number,
    first: number,
    nx: number,
    ny: number,
    nz: number,
    offset: number,
  ): void {
    const { x, y, z } = this.#cells.seen;
    const count = end - start;
    if (count > this.#depths.length) {
      this.#corners = new Float64Array(4 * count);
      this.#depths = new Float64Array(2 * count);
    }
    let left = Infinity;
    let right = -Infinity;
    let bottom = Infinity;
    let top = -Infinity;
    let far = Infinity;
    let near = -Infinity;
    for (let i = 0; i < count; i++) {
      const point = first + (points[start + i] as number);
      const px = x[point] as number;
      const py = y[point] as number;
      const pz = z[point] as number;
      this.#corners[2 * i] = px;
      this.#corners[2 * i + 1] = py;
      this.#depths[i] = pz;
      if (px < left) left = px;
      if (px > right) right = px;
      if (py < bottom) bottom = py;
      if (py > top) top = py;
      if (pz < far) far = pz;
      if (pz > near) near = pz;
    }
    this.#count = count;
    this.left = left;
    this.right = right;
    this.bottom = bottom;
    this.top = top;
    this.far = far;
    this.#near = near;
    this.#nx = nx;
    this.#ny = ny;
    this.#nz = nz;
    this.#offset = offset;
    this.#slopeX = -nx / nz;
    this.#slopeY = -ny / nz;
    this.#depth = offset / nz;
    this.#pieces.begin(this.#corners, count);
  }

  /** What is left of it, as convex outlines on the paper. */
  outlines(): Outline[] {
    return this.#pieces.outlines();
  }

  /** Notes what a cell hides. True when that is all of it. */
  note(cell: number): boolean {
    if (this.#cells.near(cell) <= this.far + SLIVER) return false;
    if (this.#cells.isBehind(cell, this.#nx, this.#ny, this.#nz, this.#offset + SLIVER)) {
      return false;
    }
    this.#pieces.beginHole();
    return this.#addSides(cell) && this.#addPlanes(cell) && !this.#pieces.keepHole();
  }

  /** Takes away what was noted. True when nothing is left. */
  take(): boolean {
    return this.#pieces.takeHoles();
  }

  /** False when the facet lies beside the cell on the paper. */
  #addSides(cell: number): boolean {
    const { sides, sidesOf, sidesEnd } = this.#cells;
    const corners = this.#corners;
    const end = sidesEnd[cell] as number;
    for (let at = sidesOf[cell] as number; at < end; at += SIDE) {
      const a = sides[at] as number;
      const b = sides[at + 1] as number;
      const c = sides[at + 2] as number;
      // Mostly the room around the facet tells enough.
      if (a * (a > 0 ? this.right : this.left) + b * (b > 0 ? this.top : this.bottom) - c <= 0) {
        continue;
      }
      let least = Infinity;
      let most = -Infinity;
      for (let i = 0; i < 2 * this.#count; i += 2) {
        const beyond = a * (corners[i] as number) + b * (corners[i + 1] as number) - c;
        if (beyond < least) least = beyond;
        if (beyond > most) most = beyond;
      }
      if (least >= -SLIVER) return false;
      if (most > SLIVER) this.#pieces.addLine(a, b, c);
    }
    return true;
  }

  /** False when the facet lies before one of the cell's own, or on it. */
  #addPlanes(cell: number): boolean {
    if (this.#near < (this.#cells.floor[cell] as number) - SLIVER) return true;
    const { planes, planesOf, planesEnd } = this.#cells;
    const corners = this.#corners;
    const end = planesEnd[cell] as number;
    for (let at = planesOf[cell] as number; at < end; at += PLANE) {
      const nx = planes[at] as number;
      const ny = planes[at + 1] as number;
      const nz = planes[at + 2] as number;
      const c = planes[at + 3] as number;
      let least = Infinity;
      let most = -Infinity;
      for (let i = 0; i < this.#count; i++) {
        const before =
          nx * (corners[2 * i] as number) +
          ny * (corners[2 * i + 1] as number) +
          nz * (this.#depths[i] as number) -
          c;
        if (before < least) least = before;
        if (before > most) most = before;
      }
      if (least >= -SLIVER) return false;
      if (most > SLIVER) {
        this.#pieces.addLine(nx + nz * this.#slopeX, ny + nz * this.#slopeY, c - nz * this.#depth);
      }
    }
    return true;
  }
}
