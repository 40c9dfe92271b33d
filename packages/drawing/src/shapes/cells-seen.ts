import type { Gaze } from '../eye.ts';
import { Outliner, type Seen } from './outline.ts';
import { NO_SOLIDS, type PreparedSolids } from './prepared.ts';
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
  /** The points of solids looked at, as the eye sees them. */
  readonly seen: Seen = {
    x: new Float64Array(0),
    y: new Float64Array(0),
    z: new Float64Array(0),
  };
  /** Left, right, bottom, top and nearest point of each cell, mm. What is a line on the paper has none. */
  bounds: Float64Array = new Float64Array(0);
  /** What is no nearer than this is behind all facets that look towards the eye, mm. */
  floor: Float64Array = new Float64Array(0);
  /** Where the sides of the outline of each cell begin and end, counted in numbers. */
  sidesOf: Int32Array = new Int32Array(0);
  /** One past the last. */
  sidesEnd: Int32Array = new Int32Array(0);
  /** The sides of outlines. A cell that is a line on the paper has none, and hides nothing. */
  sides: Float64Array = new Float64Array(0);
  /** Where the planes towards the eye of each cell begin and end, counted in numbers. */
  planesOf: Int32Array = new Int32Array(0);
  /** One past the last. */
  planesEnd: Int32Array = new Int32Array(0);
  /** Those planes, by their normals to the right, up and towards the eye. */
  planes: Float64Array = new Float64Array(0);
  #all: PreparedSolids = NO_SOLIDS;
  #gaze: Gaze = { right: [1, 0, 0], up: [0, 0, 1], toEye: [0, -1, 0] };
  readonly #outliner = new Outliner(this.seen);
  /** 1 for each solid that was looked at. */
  #looked: Uint8Array = new Uint8Array(0);

  /** Makes room for what is to be looked at from somewhere. */
  begin(all: PreparedSolids, gaze: Gaze): void {
    const points = all.points.length / 3;
    const cells = all.cellPoints.starts.length - 1;
    this.#all = all;
    this.#gaze = gaze;
    if (points > this.seen.x.length) {
      this.seen.x = new Float64Array(points);
      this.seen.y = new Float64Array(points);
      this.seen.z = new Float64Array(points);
    }
    if (cells > this.floor.length) {
      this.bounds = new Float64Array(BOUNDS * cells);
      this.floor = new Float64Array(cells);
      this.sidesOf = new Int32Array(cells);
      this.sidesEnd = new Int32Array(cells);
      this.planesOf = new Int32Array(cells);
      this.planesEnd = new Int32Array(cells);
    }
    const sides = SIDE * all.cellPoints.items.length;
    if (sides > this.sides.length) this.sides = new Float64Array(sides);
    const planes = all.cellPlanes.length;
    if (planes > this.planes.length) this.planes = new Float64Array(planes);
    const solids = all.solids.length;
    if (solids > this.#looked.length) this.#looked = new Uint8Array(solids);
    else this.#looked.fill(0);
  }

  /** Looks at a solid, unless that was done already. */
  look(solid: number): void {
    if (this.#looked[solid] === 1) return;
    this.#looked[solid] = 1;
    const { pointsOf, cellsOf, cellPoints } = this.#all;
    this.#project(pointsOf[solid] as number, pointsOf[solid + 1] as number);
    const { starts, items } = cellPoints;
    const last = cellsOf[solid + 1] as number;
    for (let cell = cellsOf[solid] as number; cell < last; cell++) {
      const start = starts[cell] as number;
      const end = starts[cell + 1] as number;
      this.#setSides(cell, SIDE * start, this.#outliner.of(items, start, end));
      this.bounds[BOUNDS * cell + 4] = this.#nearest(items, start, end);
      this.#setPlanes(cell);
    }
  }

  /** Looks at the creases that are told with a solid. */
  lookAtCreases(solid: number): void {
    const { pointsOf, creasesOf, solids } = this.#all;
    const first = pointsOf[solids.length] as number;
    this.#project(
      first + 2 * (creasesOf[solid] as number),
      first + 2 * (creasesOf[solid + 1] as number),
    );
  }

  #project(from: number, to: number): void {
    const { points } = this.#all;
    const { right, up, toEye } = this.#gaze;
    const { x, y, z } = this.seen;
    const rx = right[0];
    const ry = right[1];
    const rz = right[2];
    const ux = up[0];
    const uy = up[1];
    const uz = up[2];
    const ex = toEye[0];
    const ey = toEye[1];
    const ez = toEye[2];
    for (let i = from, at = 3 * from; i < to; i++, at += 3) {
      const px = points[at] as number;
      const py = points[at + 1] as number;
      const pz = points[at + 2] as number;
      x[i] = px * rx + py * ry + pz * rz;
      y[i] = px * ux + py * uy + pz * uz;
      z[i] = px * ex + py * ey + pz * ez;
    }
  }

  #setSides(cell: number, start: number, count: number): void {
    const { x, y, z } = this.seen;
    const { sides } = this;
    const { corners } = this.#outliner;
    let to = start;
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
    this.sidesOf[cell] = start;
    this.sidesEnd[cell] = to;
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

  /** Whether all of a cell lies behind a plane, or no farther before it than that: then it hides nothing of that plane. */
  isBehind(cell: number, plane: Float64Array, within: number): boolean {
    const nx = plane[0] as number;
    const ny = plane[1] as number;
    const nz = plane[2] as number;
    const offset = (plane[3] as number) + within;
    const { x, y, z } = this.seen;
    const { starts, items } = this.#all.cellPoints;
    const end = starts[cell + 1] as number;
    for (let i = starts[cell] as number; i < end; i++) {
      const point = items[i] as number;
      const height =
        nx * (x[point] as number) + ny * (y[point] as number) + nz * (z[point] as number);
      if (height > offset) return false;
    }
    return true;
  }

  #setPlanes(cell: number): void {
    const { cellPlanes, cellPlanesOf } = this.#all;
    const { right, up, toEye } = this.#gaze;
    const { planes } = this;
    const start = PLANE * (cellPlanesOf[cell] as number);
    const end = PLANE * (cellPlanesOf[cell + 1] as number);
    let to = start;
    for (let at = start; at < end; at += PLANE) {
      const nx = cellPlanes[at] as number;
      const ny = cellPlanes[at + 1] as number;
      const nz = cellPlanes[at + 2] as number;
      const facing = nx * toEye[0] + ny * toEye[1] + nz * toEye[2];
      if (facing <= FACING) continue;
      planes[to] = nx * right[0] + ny * right[1] + nz * right[2];
      planes[to + 1] = nx * up[0] + ny * up[1] + nz * up[2];
      planes[to + 2] = facing;
      planes[to + 3] = cellPlanes[at + 3] as number;
      to += PLANE;
    }
    this.planesOf[cell] = start;
    this.planesEnd[cell] = to;
  }
}
