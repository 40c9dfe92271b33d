import type { Facet, Triple } from '@kerfbook/solids';
import { type Eye, type Gaze, gazeOf } from '../eye.ts';
import { paperOf } from '../paper-lines.ts';
import type { Rectangle, Segment } from '../views.ts';
import type { Outline } from '../visible-face.ts';
import { Before, reaches } from './before.ts';
import { CellsSeen, FACING, type Seen, seenPoints } from './cells-seen.ts';
import type { PreparedSolids } from './prepared.ts';
import { PLANE } from './ready-solid.ts';
import { SameLines } from './same-lines.ts';
import { FacetCutter } from './seen-facet.ts';
import type { StretchList } from './stretch-list.ts';
import { Stretches } from './stretches.ts';

/** A facet that looks towards the eye, and what can be seen of it. */
export interface SeenFacet {
  /** As the solid has it, with its normal, and the surface it belongs to. */
  readonly facet: Facet;
  /** Convex outlines on the paper that do not overlap, mm. */
  readonly outlines: readonly Outline[];
}

/** A straight way to be drawn with the solids, and hidden where they are in front; mm. */
export interface Way {
  /** Where it begins. */
  readonly from: Triple;
  /** Where it ends. */
  readonly to: Triple;
}

/** What a view is to show, besides the lines. */
export interface ViewWishes {
  /** Whether what is seen of facets is worked out; not when left out. */
  readonly facets?: boolean;
  /**
   * Whether edges on the far side are among the hidden ones, as in views square on; otherwise an
   * edge is drawn only where one of its facets looks towards the eye.
   */
  readonly backs?: boolean;
  /** Lines to be drawn besides. */
  readonly ways?: readonly Way[];
}

/** A parallel projection of solids; mm on the paper at the scale of 1 across the line of sight. */
export interface SolidsView {
  /** Where it is looked at from. */
  readonly eye: Eye;
  /** For each solid those of its facets of which something can be seen; empty unless asked for. */
  readonly facets: readonly (readonly SeenFacet[])[];
  /** Edges, outlines and creases that can be seen, each stretch of a line once. */
  readonly visible: readonly Segment[];
  /** Those behind something, less what coincides with a visible one (ISO 128). */
  readonly hidden: readonly Segment[];
  /** The ways asked for, as far as they can be seen. */
  readonly ways: readonly Segment[];
  /** Around all solids and ways, mm. */
  readonly bounds: Rectangle;
}

/**
 * Solids seen from anywhere, what is hidden worked out exactly: each edge and each facet is cut at
 * the outlines of the cells in front of it, so solids may touch, overlap or interlock. Undefined
 * when there is none.
 * @throws RangeError when the eye's angles are none; see `gazeOf`
 */
export function viewSolids(
  all: PreparedSolids,
  eye: Eye,
  wishes: ViewWishes = {},
): SolidsView | undefined {
  const gaze = gazeOf(eye);
  if (all.points.length === 0) return undefined;
  return new SolidsViewer(all, gaze).view(eye, wishes);
}

class SolidsViewer {
  readonly #all: PreparedSolids;
  readonly #gaze: Gaze;
  readonly #seen: Seen;
  readonly #cells: CellsSeen;
  readonly #before: Before;
  readonly #stretches: Stretches;
  readonly #cutter: FacetCutter;

  constructor(all: PreparedSolids, gaze: Gaze) {
    this.#all = all;
    this.#gaze = gaze;
    this.#seen = seenPoints(all, gaze);
    this.#cells = new CellsSeen(all, this.#seen, gaze);
    this.#before = new Before(all, this.#seen, this.#cells);
    this.#stretches = new Stretches(this.#cells);
    this.#cutter = new FacetCutter(this.#cells);
  }

  view(eye: Eye, { facets = false, backs = false, ways = [] }: ViewWishes): SolidsView {
    const lines = new SameLines();
    const seenFacets: SeenFacet[][] = this.#all.solids.map(() => []);
    // The nearest first: what is drawn of them is seen, and nothing that falls on it has to be looked at.
    for (const solid of this.#before.nearest) {
      this.#before.gather(this.#before.roomOf(solid), this.#alone(solid) ? solid : -1);
      this.#drawEdges(solid, backs, lines);
      this.#drawCreases(solid, backs, lines);
      if (facets) seenFacets[solid] = this.#facetsOf(solid);
    }
    return {
      eye,
      facets: seenFacets,
      ...lines.settle(),
      ways: this.#waysSeen(ways),
      bounds: this.#bounds(ways),
    };
  }

  /** Whether a solid is convex: what of it looks towards the eye is then never behind the rest. */
  #alone(solid: number): boolean {
    const { cellsOf } = this.#all;
    return (cellsOf[solid + 1] as number) - (cellsOf[solid] as number) === 1;
  }

  #drawEdges(solid: number, backs: boolean, lines: SameLines): void {
    const { edgesOf, edgePoints, edgeNormals, edgeSmooth } = this.#all;
    const { toEye } = this.#gaze;
    const end = edgesOf[solid + 1] as number;
    for (let edge = edgesOf[solid] as number; edge < end; edge++) {
      const one = facing(edgeNormals, 6 * edge, toEye) > FACING;
      const other = facing(edgeNormals, 6 * edge + 3, toEye) > FACING;
      if (edgeSmooth[edge] === 1 ? one === other : !(one || other || backs)) continue;
      this.#drawLine(edgePoints, edge, one || other, lines);
    }
  }

  /** A crease lies on both of its facets, so that what looks away from the eye hides it. */
  #drawCreases(solid: number, backs: boolean, lines: SameLines): void {
    const { creasesOf, creasePoints, creaseNormals } = this.#all;
    const { toEye } = this.#gaze;
    const end = creasesOf[solid + 1] as number;
    for (let crease = creasesOf[solid] as number; crease < end; crease++) {
      const front =
        facing(creaseNormals, 6 * crease, toEye) > FACING &&
        facing(creaseNormals, 6 * crease + 3, toEye) > FACING;
      if (front || backs) this.#drawLine(creasePoints, crease, front, lines);
    }
  }

  #drawLine(points: Int32Array, line: number, isFront: boolean, lines: SameLines): void {
    const { x, y, z } = this.#seen;
    const from = points[2 * line] as number;
    const to = points[2 * line + 1] as number;
    const x0 = x[from] as number;
    const y0 = y[from] as number;
    const x1 = x[to] as number;
    const y1 = y[to] as number;
    if (!lines.add(x0, y0, x1, y1) || !isFront) return;
    lines.see(this.#seenBetween(x0, y0, z[from] as number, x1, y1, z[to] as number));
  }

  #seenBetween(
    x0: number,
    y0: number,
    z0: number,
    x1: number,
    y1: number,
    z1: number,
  ): StretchList {
    const stretches = this.#stretches;
    const { bounds, cells, solids, count } = this.#before;
    stretches.follow(x0, y0, z0, x1, y1, z1);
    const left = Math.min(x0, x1);
    const right = Math.max(x0, x1);
    const bottom = Math.min(y0, y1);
    const top = Math.max(y0, y1);
    const far = Math.min(z0, z1);
    for (let i = 0; i < count; i++) {
      if (!reaches(bounds, i, left, right, bottom, top, far)) continue;
      if (stretches.pass(cells[i] as number, solids[i] as number)) return [];
    }
    return stretches.seen();
  }

  #facetsOf(solid: number): SeenFacet[] {
    const { facetsOf, solids } = this.#all;
    const first = facetsOf[solid] as number;
    const facets: SeenFacet[] = [];
    for (const [index, facet] of (solids[solid]?.facets ?? []).entries()) {
      const outlines = this.#outlinesOf(first + index);
      if (outlines.length > 0) facets.push({ facet, outlines });
    }
    return facets;
  }

  #outlinesOf(facet: number): Outline[] {
    const plane = this.#planeOf(facet);
    if (plane === undefined) return [];
    const { starts, items } = this.#all.facetPoints;
    const { x, y, z } = this.#seen;
    const corners: number[] = [];
    const depths: number[] = [];
    let [left, right, bottom, top, far] = [Infinity, -Infinity, Infinity, -Infinity, Infinity];
    const end = starts[facet + 1] as number;
    for (let i = starts[facet] as number; i < end; i++) {
      const point = items[i] as number;
      const [px, py, pz] = [x[point] as number, y[point] as number, z[point] as number];
      corners.push(px, py);
      depths.push(pz);
      left = Math.min(left, px);
      right = Math.max(right, px);
      bottom = Math.min(bottom, py);
      top = Math.max(top, py);
      far = Math.min(far, pz);
    }
    const cutter = this.#cutter;
    const { bounds, cells, count } = this.#before;
    cutter.begin(corners, depths, plane);
    for (let i = 0; i < count; i++) {
      if (!reaches(bounds, i, left, right, bottom, top, far)) continue;
      if (cutter.take(cells[i] as number)) return [];
    }
    return cutter.pieces.map(outlineOf);
  }

  /** The plane of a facet that looks towards the eye, as the eye sees it. */
  #planeOf(facet: number): readonly [number, number, number, number] | undefined {
    const { facetPlanes } = this.#all;
    const { right, up, toEye } = this.#gaze;
    const at = PLANE * facet;
    const towards = facing(facetPlanes, at, toEye);
    if (towards <= FACING) return undefined;
    return [
      facing(facetPlanes, at, right),
      facing(facetPlanes, at, up),
      towards,
      facetPlanes[at + 3] as number,
    ];
  }

  #waysSeen(ways: readonly Way[]): Segment[] {
    const lines = new SameLines();
    for (const { from, to } of ways) {
      const [x0, y0] = paperOf(from, this.#gaze);
      const [x1, y1] = paperOf(to, this.#gaze);
      const [z0, z1] = [dot(from, this.#gaze.toEye), dot(to, this.#gaze.toEye)];
      this.#before.gather(
        {
          left: Math.min(x0, x1),
          right: Math.max(x0, x1),
          bottom: Math.min(y0, y1),
          top: Math.max(y0, y1),
          far: Math.min(z0, z1),
        },
        -1,
      );
      if (lines.add(x0, y0, x1, y1)) lines.see(this.#seenBetween(x0, y0, z0, x1, y1, z1));
    }
    return lines.settle().visible;
  }

  /** Around everything, whether it can be seen or not, so that it moves smoothly. */
  #bounds(ways: readonly Way[]): Rectangle {
    let { left, right, bottom, top } = this.#before.around;
    for (const [x, y] of ways.flatMap(({ from, to }) => [
      paperOf(from, this.#gaze),
      paperOf(to, this.#gaze),
    ])) {
      left = Math.min(left, x);
      right = Math.max(right, x);
      bottom = Math.min(bottom, y);
      top = Math.max(top, y);
    }
    return { left, right, bottom, top };
  }
}

const facing = (normals: Float64Array, at: number, [x, y, z]: Triple): number =>
  (normals[at] as number) * x + (normals[at + 1] as number) * y + (normals[at + 2] as number) * z;

const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

function outlineOf(corners: readonly number[]): Outline {
  const outline: [number, number][] = [];
  for (let i = 0; i < corners.length; i += 2) {
    outline.push([corners[i] as number, corners[i + 1] as number]);
  }
  return outline;
}
