import type { Gaze } from '../eye.ts';
import { Outliner } from './outline.ts';
import type { PreparedSolids } from './prepared.ts';
import { PLANE } from './ready-solid.ts';

/** A facet turned less towards the eye than this is seen edge on: the sine of the turn. */
export const FACING = 1e-7;

/** A side of an outline on the paper: what is within has mx·x + my·y <= c. */
export const SIDE = 3;

/** Points as an eye sees them: right and up on the paper, and how near, mm. */
export interface Seen {
  /** To the right. */
  readonly x: Float64Array;
  /** Upwards. */
  readonly y: Float64Array;
  /** Towards the eye. */
  readonly z: Float64Array;
}

/** All points of some solids, from one eye. */
export function seenPoints({ points }: PreparedSolids, { right, up, toEye }: Gaze): Seen {
  const count = points.length / 3;
  const [x, y, z] = [
    new Float64Array(count),
    new Float64Array(count),
    new Float64Array(count),
  ] as const;
  const [rx, ry, rz] = right;
  const [ux, uy, uz] = up;
  const [ex, ey, ez] = toEye;
  for (let i = 0, at = 0; i < count; i++, at += 3) {
    const px = points[at] as number;
    const py = points[at + 1] as number;
    const pz = points[at + 2] as number;
    x[i] = px * rx + py * ry + pz * rz;
    y[i] = px * ux + py * uy + pz * uz;
    z[i] = px * ex + py * ey + pz * ez;
  }
  return { x, y, z };
}

/**
 * What each convex cell hides. A line of sight from a point goes into a cell when the point lies
 * within the cell's outline on the paper and behind each facet that looks towards the eye: both
 * are half-spaces, so that what a cell hides of a line is one stretch of it.
 */
export class CellsSeen {
  /** Left, right, bottom, top and nearest point of each cell, mm. What is a line on the paper has none. */
  readonly bounds: Float64Array;
  /** What is no nearer than this is behind all facets that look towards the eye, mm. */
  readonly floor: Float64Array;
  /** Where the sides of the outline of each cell begin, counted in numbers. */
  readonly sidesOf: Int32Array;
  /** The sides of outlines. A cell that is a line on the paper has none, and hides nothing. */
  readonly sides: number[] = [];
  /** Where the planes towards the eye of each cell begin, counted in numbers. */
  readonly planesOf: Int32Array;
  /** Those planes, by their normals to the right, up and towards the eye. */
  readonly planes: number[] = [];

  constructor(all: PreparedSolids, seen: Seen, gaze: Gaze) {
    const count = all.cellPlanesOf.length - 1;
    this.bounds = new Float64Array(5 * count);
    this.floor = new Float64Array(count);
    this.sidesOf = new Int32Array(count + 1);
    this.planesOf = new Int32Array(count + 1);
    const outliner = new Outliner(seen.x, seen.y, seen.z);
    const { starts, items } = all.cellPoints;
    for (let cell = 0; cell < count; cell++) {
      const [start, end] = [starts[cell] as number, starts[cell + 1] as number];
      const outline = outliner.of(items, start, end);
      this.#addSides(cell, outline, seen);
      this.#addPlanes(cell, all, gaze);
      this.bounds[5 * cell + 4] = nearest(items, start, end, seen);
    }
  }

  #addSides(cell: number, outline: readonly number[], { x, y, z }: Seen): void {
    let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
    let floor = Infinity;
    if (outline.length > 2) {
      let before = outline.at(-1) as number;
      for (const corner of outline) {
        const [ax, ay] = [x[before] as number, y[before] as number];
        const [bx, by] = [x[corner] as number, y[corner] as number];
        const length = Math.hypot(bx - ax, by - ay);
        const mx = (by - ay) / length;
        const my = (ax - bx) / length;
        this.sides.push(mx, my, mx * ax + my * ay);
        left = Math.min(left, bx);
        right = Math.max(right, bx);
        bottom = Math.min(bottom, by);
        top = Math.max(top, by);
        // Facets towards the eye together bulge towards it: they lie deepest at a corner.
        floor = Math.min(floor, z[corner] as number);
        before = corner;
      }
    }
    this.sidesOf[cell + 1] = this.sides.length;
    this.bounds.set([left, right, bottom, top], 5 * cell);
    this.floor[cell] = floor;
  }

  /** The nearest point of a cell, mm. */
  near(cell: number): number {
    return this.bounds[5 * cell + 4] as number;
  }

  #addPlanes(
    cell: number,
    { cellPlanes, cellPlanesOf }: PreparedSolids,
    { right, up, toEye }: Gaze,
  ): void {
    const end = cellPlanesOf[cell + 1] as number;
    for (let plane = cellPlanesOf[cell] as number; plane < end; plane++) {
      const at = plane * PLANE;
      const nx = cellPlanes[at] as number;
      const ny = cellPlanes[at + 1] as number;
      const nz = cellPlanes[at + 2] as number;
      const facing = nx * toEye[0] + ny * toEye[1] + nz * toEye[2];
      if (facing <= FACING) continue;
      this.planes.push(
        nx * right[0] + ny * right[1] + nz * right[2],
        nx * up[0] + ny * up[1] + nz * up[2],
        facing,
        cellPlanes[at + 3] as number,
      );
    }
    this.planesOf[cell + 1] = this.planes.length;
  }
}

function nearest(points: Int32Array, start: number, end: number, { z }: Seen): number {
  let near = -Infinity;
  for (let i = start; i < end; i++) near = Math.max(near, z[points[i] as number] as number);
  return near;
}
