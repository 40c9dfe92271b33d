import type { Facet, Solid, Triple } from '@kerfbook/solids';
import { type Eye, type Gaze, gazeOf } from '../eye.ts';
import { paperOf } from '../paper-lines.ts';
import type { Rectangle, Segment } from '../views.ts';
import type { Outline } from '../visible-face.ts';
import { Before, reaches } from './before.ts';
import { CellsSeen, FACING } from './cells-seen.ts';
import type { PreparedSolids } from './prepared.ts';
import { PLANE } from './ready-solid.ts';
import { SameLines } from './same-lines.ts';
import { FacetCutter } from './seen-facet.ts';
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
  return viewerOf(all).view(eye, gaze, wishes);
}

const viewers = new WeakMap<PreparedSolids, SolidsViewer>();

/** Keeps its lists of numbers from one view to the next: a turn would fill them anew at every step. */
function viewerOf(all: PreparedSolids): SolidsViewer {
  const known = viewers.get(all);
  if (known !== undefined) return known;
  const viewer = new SolidsViewer(all);
  viewers.set(all, viewer);
  return viewer;
}

class SolidsViewer {
  readonly #all: PreparedSolids;
  readonly #cells: CellsSeen;
  readonly #before: Before;
  readonly #stretches: Stretches;
  readonly #cutter: FacetCutter;
  readonly #lines: SameLines;
  #gaze: Gaze = { right: [1, 0, 0], up: [0, 0, 1], toEye: [0, -1, 0] };

  constructor(all: PreparedSolids) {
    this.#all = all;
    this.#cells = new CellsSeen(all);
    this.#before = new Before(all, this.#cells);
    this.#stretches = new Stretches(this.#cells);
    this.#cutter = new FacetCutter(this.#cells);
    this.#lines = new SameLines((all.edgePoints.length + all.creasePoints.length) / 2);
  }

  view(eye: Eye, gaze: Gaze, { facets = false, backs = false, ways = [] }: ViewWishes): SolidsView {
    this.#gaze = gaze;
    this.#cells.look(gaze);
    this.#before.look();
    this.#lines.clear();
    const seenFacets: SeenFacet[][] = this.#all.solids.map(() => []);
    // The nearest first: what is drawn of them is seen, and nothing that falls on it has to be looked at.
    for (const solid of this.#before.nearest) {
      this.#before.gatherFor(solid);
      this.#drawEdges(solid, backs);
      this.#drawCreases(solid, backs);
      if (facets) seenFacets[solid] = this.#facetsOf(solid);
    }
    return {
      eye,
      facets: seenFacets,
      ...this.#lines.settle(),
      ways: this.#waysSeen(ways),
      bounds: this.#bounds(ways),
    };
  }

  #drawEdges(solid: number, backs: boolean): void {
    const { edgesOf, edgePoints, edgeNormals, edgeSmooth } = this.#all;
    const { toEye } = this.#gaze;
    const ex = toEye[0];
    const ey = toEye[1];
    const ez = toEye[2];
    const end = edgesOf[solid + 1] as number;
    for (let edge = edgesOf[solid] as number; edge < end; edge++) {
      const one = facing(edgeNormals, 6 * edge, ex, ey, ez) > FACING;
      const other = facing(edgeNormals, 6 * edge + 3, ex, ey, ez) > FACING;
      if (edgeSmooth[edge] === 1 ? one === other : !(one || other || backs)) continue;
      this.#drawLine(edgePoints, edge, one || other);
    }
  }

  /** A crease lies on both of its facets, so that what looks away from the eye hides it. */
  #drawCreases(solid: number, backs: boolean): void {
    const { creasesOf, creasePoints, creaseNormals } = this.#all;
    const { toEye } = this.#gaze;
    const ex = toEye[0];
    const ey = toEye[1];
    const ez = toEye[2];
    const end = creasesOf[solid + 1] as number;
    for (let crease = creasesOf[solid] as number; crease < end; crease++) {
      const front =
        facing(creaseNormals, 6 * crease, ex, ey, ez) > FACING &&
        facing(creaseNormals, 6 * crease + 3, ex, ey, ez) > FACING;
      if (front || backs) this.#drawLine(creasePoints, crease, front);
    }
  }

  #drawLine(points: Int32Array, line: number, isFront: boolean): void {
    const { x, y, z } = this.#cells.seen;
    const from = points[2 * line] as number;
    const to = points[2 * line + 1] as number;
    const x0 = x[from] as number;
    const y0 = y[from] as number;
    const x1 = x[to] as number;
    const y1 = y[to] as number;
    if (!this.#lines.add(x0, y0, x1, y1) || !isFront) return;
    this.#see(this.#lines, x0, y0, z[from] as number, x1, y1, z[to] as number);
  }

  /** Tells the lines what can be seen of the one that was added last. */
  #see(
    lines: SameLines,
    x0: number,
    y0: number,
    z0: number,
    x1: number,
    y1: number,
    z1: number,
  ): void {
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
      if (stretches.pass(cells[i] as number, solids[i] as number)) return;
    }
    stretches.tell(lines);
  }

  #facetsOf(solid: number): SeenFacet[] {
    const { facetsOf, solids } = this.#all;
    const first = facetsOf[solid] as number;
    const facets: SeenFacet[] = [];
    const own = (solids[solid] as Solid).facets;
    for (let index = 0; index < own.length; index++) {
      const outlines = this.#outlinesOf(first + index);
      if (outlines.length > 0) facets.push({ facet: own[index] as Facet, outlines });
    }
    return facets;
  }

  #outlinesOf(facet: number): Outline[] {
    const { facetPlanes, facetPoints } = this.#all;
    const { right, up, toEye } = this.#gaze;
    const at = PLANE * facet;
    const towards = facing(facetPlanes, at, toEye[0], toEye[1], toEye[2]);
    if (towards <= FACING) return [];
    const cutter = this.#cutter;
    cutter.begin(
      facetPoints.items,
      facetPoints.starts[facet] as number,
      facetPoints.starts[facet + 1] as number,
      facing(facetPlanes, at, right[0], right[1], right[2]),
      facing(facetPlanes, at, up[0], up[1], up[2]),
      towards,
      facetPlanes[at + 3] as number,
    );
    const { left, right: end, bottom, top, far } = cutter;
    const { bounds, cells, count } = this.#before;
    for (let i = 0; i < count; i++) {
      if (!reaches(bounds, i, left, end, bottom, top, far)) continue;
      if (cutter.take(cells[i] as number)) return [];
    }
    return cutter.outlines();
  }

  #waysSeen(ways: readonly Way[]): Segment[] {
    const lines = new SameLines(ways.length);
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
      if (lines.add(x0, y0, x1, y1)) this.#see(lines, x0, y0, z0, x1, y1, z1);
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

const facing = (normals: Float64Array, at: number, x: number, y: number, z: number): number =>
  (normals[at] as number) * x + (normals[at + 1] as number) * y + (normals[at + 2] as number) * z;

const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
