import type { Gaze } from '../eye.ts';
import { Outliner, type Seen } from './outline.ts';
import type { PreparedSolids } from './prepared.ts';
import { PLANE } from './ready-solid.ts';

/** A facet turned less towards the eye than this is seen edge on: the sine of the turn. */
export const FACING = 1e-7;

/** A side of an outline on the paper: what is within has mx·x + my·y <= c. */
export const SIDE = 3;

/** Left, right, bottom, top and nearest point. */
export const BOUNDS = 5;

/**
 * What each convex cell hides. A line of sight from a point goes into a cell when the point lies
 * within the cell's outline on the paper and behind each facet that looks towards the eye: both
 * are half-spaces, so that what a cell hides of a line is one stretch of it.
 */
export class CellsSeen {
  /** All points as the eye sees them. */
  readonly seen: Seen;
  /** Left, right, bottom, top and nearest point of each cell, mm. What is a line on the paper has none. */
  readonly bounds: Float64Array;
  /** What is no nearer than this is behind all facets that look towards the eye, mm. */
  readonly floor: Float64Array;
  /** Where the sides of the outline of each cell begin, counted in numbers. */
  readonly sidesOf: Int32Array;
  /** The sides of outlines. A cell that is a line on the paper has none, and hides nothing. */
  readonly sides: Float64Array;
  /** Where the planes towards the eye of each cell begin, counted in numbers. */
  readonly planesOf: Int32Array;
  /** Those planes, by their normals to the right, up and towards the eye. */
  readonly planes: Float64Array;
  readonly #all: PreparedSolids;
  readonly #outliner: Outliner;

  constructor(all: PreparedSolids) {
    const points = all.points.length / 3;
    const { starts, items } = all.cellPoints;
    const cells = starts.length - 1;
    this.#all = all;
    this.seen = {
      x: new Float64Array(points),
      y: new Float64Array(points),
      z: new Float64Array(points),
    };
    this.bounds = new Float64Array(BOUNDS * cells);
    this.floor = new Float64Array(cells);
    this.sidesOf = new Int32Array(cells + 1);
    this.sides = new Float64Array(SIDE * items.length);
    this.planesOf = new Int32Array(cells + 1);
    this.planes = new Float64Array(all.cellPlanes.length);
    let most = 0;
    for (let cell = 0; cell < cells; cell++) {
      most = Math.max(most, (starts[cell + 1] as number) - (starts[cell] as number));
    }
    this.#outliner = new Outliner(this.seen, most);
  }

  /** Looks at all cells from somewhere. */
  look(gaze: Gaze): void {
    this.#project(gaze);
    const { starts, items } = this.#all.cellPoints;
    for (let cell = 0; cell < this.floor.length; cell++) {
      const start = starts[cell] as number;
      const end = starts[cell + 1] as number;
      this.#setSides(cell, this.#outliner.of(items, start, end));
      this.bounds[BOUNDS * cell + 4] = this.#nearest(items, start, end);
    }
    this.#setPlanes(gaze);
  }

  #project({ right, up, toEye }: Gaze): void {
    const { points } = this.#all;
    const { x, y, z } = this.seen;
    const [rx, ry, rz] = right;
    const [ux, uy, uz] = up;
    const [ex, ey, ez] = toEye;
    for (let i = 0, at = 0; i < x.length; i++, at += 3) {
      const px = points[at] as number;
      const py = points[at + 1] as number;
      const pz = points[at + 2] as number;
      x[i] = px * rx + py * ry + pz * rz;
      y[i] = px * ux + py * uy + pz * uz;
      z[i] = px * ex + py * ey + pz * ez;
    }
  }

  #setSides(cell: number, count: number): void {
    const { x, y, z } = this.seen;
    const { sides } = this;
    const { corners } = this.#outliner;
    let to = this.sidesOf[cell] as number;
    let left = Infinity;
    let right = -Infinity;
    let bottom = Infinity;
    let top = -Infinity;
    let floor = Infinity;
    if (count > 2) {
      const last = corners[count - 1] as number;
      let ax = x[last] as number;
      let ay = y[last] as number;
      for (let i = 0; i < count; i++) {
        const corner = corners[i] as number;
        const bx = x[corner] as number;
        const by = y[corner] as number;
        const length = Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
        const mx = (by - ay) / length;
        const my = (ax - bx) / length;
        sides[to] = mx;
        sides[to + 1] = my;
        sides[to + 2] = mx * ax + my * ay;
        to += SIDE;
        if (bx < left) left = bx;
        if (bx > right) right = bx;
        if (by < bottom) bottom = by;
        if (by > top) top = by;
        // Facets towards the eye together bulge towards it: they lie deepest at a corner.
        const depth = z[corner] as number;
        if (depth < floor) floor = depth;
        ax = bx;
        ay = by;
      }
    }
    this.sidesOf[cell + 1] = to;
    const at = BOUNDS * cell;
    this.bounds[at] = left;
    this.bounds[at + 1] = right;
    this.bounds[at + 2] = bottom;
    this.bounds[at + 3] = top;
    this.floor[cell] = floor;
  }

  #nearest(points: Int32Array, start: number, end: number): number {
    const { z } = this.seen;
    let near = -Infinity;
    for (let i = start; i < end; i++) {
      const depth = z[points[i] as number] as number;
      if (depth > near) near = depth;
    }
    return near;
  }

  /** The nearest point of a cell, mm. */
  near(cell: number): number {
    return this.bounds[BOUNDS * cell + 4] as number;
  }

  #setPlanes({ right, up, toEye }: Gaze): void {
    const { cellPlanes, cellPlanesOf } = this.#all;
    const { planes, planesOf } = this;
    const [rx, ry, rz] = right;
    const [ux, uy, uz] = up;
    const [ex, ey, ez] = toEye;
    let to = 0;
    for (let cell = 0; cell < this.floor.length; cell++) {
      const end = PLANE * (cellPlanesOf[cell + 1] as number);
      for (let at = PLANE * (cellPlanesOf[cell] as number); at < end; at += PLANE) {
        const nx = cellPlanes[at] as number;
        const ny = cellPlanes[at + 1] as number;
        const nz = cellPlanes[at + 2] as number;
        const facing = nx * ex + ny * ey + nz * ez;
        if (facing <= FACING) continue;
        planes[to] = nx * rx + ny * ry + nz * rz;
        planes[to + 1] = nx * ux + ny * uy + nz * uz;
        planes[to + 2] = facing;
        planes[to + 3] = cellPlanes[at + 3] as number;
        to += PLANE;
      }
      planesOf[cell + 1] = to;
    }
  }
}
