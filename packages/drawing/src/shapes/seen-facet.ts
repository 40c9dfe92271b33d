import type { Facet } from '@kerfbook/solids';
import type { Outline } from '../visible-face.ts';
import { type CellsSeen, SIDE } from './cells-seen.ts';
import { ConvexPieces, SLIVER } from './convex-pieces.ts';
import { PLANE } from './ready-solid.ts';
import { FACET_ROOM } from './solid-seen.ts';

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
  /** Around it on the paper: left, right, bottom, top and its farthest point. */
  readonly room = new Float64Array(FACET_ROOM);
  /** Its nearest corner. */
  #near = 0;
  /** Its plane, by its normal to the right, up and towards the eye and its offset. */
  readonly plane = new Float64Array(PLANE);
  /** Of its plane: how the depth changes to the right and upwards, and at the origin. */
  #slopeX = 0;
  #slopeY = 0;
  #depth = 0;

  constructor(cells: CellsSeen) {
    this.#cells = cells;
  }

  /** Begins with another facet that looks towards the eye: its points, counted from the first of its solid, and `plane`. */
  begin(points: Int32Array, start: number, end: number, first: number): void {
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
    const corners = this.#corners;
    const depths = this.#depths;
    for (let i = 0; i < count; i++) {
      const point = first + (points[start + i] as number);
      const px = x[point] as number;
      const py = y[point] as number;
      const pz = z[point] as number;
      corners[2 * i] = px;
      corners[2 * i + 1] = py;
      depths[i] = pz;
      if (px < left) left = px;
      if (px > right) right = px;
      if (py < bottom) bottom = py;
      if (py > top) top = py;
      if (pz < far) far = pz;
      if (pz > near) near = pz;
    }
    this.#count = count;
    const { room } = this;
    room[0] = left;
    room[1] = right;
    room[2] = bottom;
    room[3] = top;
    room[4] = far;
    this.#near = near;
    const { plane } = this;
    const nz = plane[2] as number;
    this.#slopeX = -(plane[0] as number) / nz;
    this.#slopeY = -(plane[1] as number) / nz;
    this.#depth = (plane[3] as number) / nz;
    this.#pieces.begin(this.#corners, count);
  }

  /** What is left of it, as convex outlines on the paper. */
  outlines(): Outline[] {
    return this.#pieces.outlines();
  }

  /** Notes what a cell hides. True when that is all of it. */
  note(cell: number): boolean {
    if (this.#cells.near(cell) <= (this.room[4] as number) + SLIVER) return false;
    if (this.#cells.isBehind(cell, this.plane, SLIVER)) return false;
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
    const last = 2 * this.#count;
    const left = this.room[0] as number;
    const right = this.room[1] as number;
    const bottom = this.room[2] as number;
    const top = this.room[3] as number;
    for (let at = sidesOf[cell] as number; at < end; at += SIDE) {
      const a = sides[at] as number;
      const b = sides[at + 1] as number;
      const c = sides[at + 2] as number;
      // Mostly the room around the facet tells enough.
      if (a * (a > 0 ? right : left) + b * (b > 0 ? top : bottom) - c <= 0) continue;
      let least = Infinity;
      let most = -Infinity;
      for (let i = 0; i < last; i += 2) {
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
    const depths = this.#depths;
    const count = this.#count;
    const end = planesEnd[cell] as number;
    for (let at = planesOf[cell] as number; at < end; at += PLANE) {
      const nx = planes[at] as number;
      const ny = planes[at + 1] as number;
      const nz = planes[at + 2] as number;
      const c = planes[at + 3] as number;
      let least = Infinity;
      let most = -Infinity;
      for (let i = 0; i < count; i++) {
        const before =
          nx * (corners[2 * i] as number) +
          ny * (corners[2 * i + 1] as number) +
          nz * (depths[i] as number) -
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
