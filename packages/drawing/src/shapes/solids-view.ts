import type { Facet, Solid, Triple } from '@kerfbook/solids';
import { type Eye, type Gaze, gazeOf } from '../eye.ts';
import { paperOf } from '../paper-lines.ts';
import type { Rectangle, Segment } from '../views.ts';
import type { Outline } from '../visible-face.ts';
import { Before, reaches } from './before.ts';
import { CellsSeen, FACING } from './cells-seen.ts';
import { NO_SOLIDS, type PreparedSolids } from './prepared.ts';
import { PLANE, type ReadySolid } from './ready-solid.ts';
import { SAME_LINE, SameLines } from './same-lines.ts';
import { FacetCutter, type SeenFacet } from './seen-facet.ts';
import {
  FACET_ROOM,
  FAR_SIDE,
  type KeptViews,
  keptViews,
  LINE_SEEN,
  SolidSeen,
  UNASKED,
} from './solid-seen.ts';
import { Stretches } from './stretches.ts';

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
  /** Whether what is hidden of lines is told; it is when left out. */
  readonly hidden?: boolean;
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
  /** Those behind something, less what coincides with a visible one (ISO 128); none where they are not asked for. */
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
  viewer ??= new SolidsViewer();
  return viewer.view(all, eye, gaze, wishes);
}

/** Keeps its lists of numbers from one view to the next: each change and each step of a turn would make them anew. */
let viewer: SolidsViewer | undefined;

class SolidsViewer {
  readonly #cells = new CellsSeen();
  readonly #before = new Before(this.#cells);
  readonly #stretches = new Stretches(this.#cells);
  readonly #cutter = new FacetCutter(this.#cells);
  readonly #lines = new SameLines();
  #all: PreparedSolids = NO_SOLIDS;
  #gaze: Gaze = { right: [1, 0, 0], up: [0, 0, 1], toEye: [0, -1, 0] };
  /** Takes down what is worked out of the solid at hand, where that is kept. */
  #notes: SolidSeen | undefined;
  /** Ends of the line at hand. */
  readonly #ends = new Float64Array(LINE_SEEN);
  /** Whether the cells before the solid at hand are gathered. */
  #isGathered = false;

  view(
    all: PreparedSolids,
    eye: Eye,
    gaze: Gaze,
    { facets = false, backs = false, hidden = true, ways = [] }: ViewWishes,
  ): SolidsView {
    const kept = keptViews(eye, backs);
    this.#all = all;
    this.#gaze = gaze;
    this.#cells.begin(all, gaze);
    this.#before.look(all, (solid) => kept?.of(all.ready[solid] as ReadySolid)?.room);
    this.#stretches.makeRoom(all.cellPoints.starts.length - 1);
    this.#lines.begin(all.edgeCount + all.creasePoints.length / 2, hidden);
    const seenFacets: (readonly SeenFacet[])[] = all.solids.map(() => []);
    // The nearest first: what is drawn of them is seen, and nothing that falls on it has to be looked at.
    for (const solid of this.#before.nearest) {
      this.#before.findFor(solid);
      this.#isGathered = false;
      this.#draw(solid, backs, kept);
      if (facets) seenFacets[solid] = this.#facetsSeen(solid);
    }
    return {
      eye,
      facets: seenFacets,
      ...this.#lines.settle(),
      ways: this.#waysSeen(ways),
      bounds: this.#bounds(ways),
    };
  }

  /** Draws the lines of a solid: as they are kept, where nothing before it changed. */
  #draw(solid: number, backs: boolean, kept: KeptViews | undefined): void {
    const ready = this.#all.ready[solid] as ReadySolid;
    const creases = this.#all.creases[solid] ?? [];
    const known = kept?.of(ready);
    const roomOf = (one: ReadySolid): Float64Array | undefined => kept?.of(one)?.room;
    if (known?.follows(this.#all.ready, this.#before, creases, roomOf)) {
      this.#notes = known;
      this.#drawKept(solid, known);
      return;
    }
    this.#notes = undefined;
    if (kept !== undefined) {
      const { others, otherCount, roomIn } = this.#before;
      const before = Array.from(
        others.subarray(0, otherCount),
        (other) => this.#all.ready[other] as ReadySolid,
      );
      this.#notes = new SolidSeen(
        known?.room ?? roomIn(solid),
        before,
        creases,
        ready.edgeSmooth.length + creases.reduce((sum, { ends }) => sum + ends.length / 6, 0),
        ready.facetStarts.length - 1,
      );
    }
    this.#gather(solid);
    this.#drawEdges(solid, backs);
    this.#drawCreases(solid, backs);
    if (this.#notes !== undefined) kept?.keep(ready, this.#notes);
  }

  #drawKept(solid: number, known: SolidSeen): void {
    const { lines, count, from, to, stretches } = known;
    for (let line = 0, at = 0; line < count; line++, at += LINE_SEEN) {
      if (!this.#lines.add(lines, at)) continue;
      const first = from[line] as number;
      if (first === FAR_SIDE) continue;
      if (first === UNASKED) {
        this.#gather(solid);
        known.ask(line);
        this.#see(this.#lines, lines, at);
        continue;
      }
      const end = to[line] as number;
      for (let k = first; k < end; k += 2) {
        this.#lines.see(stretches[k] as number, stretches[k + 1] as number);
      }
    }
  }

  /** Gathers the cells before a solid, unless that was done already. */
  #gather(solid: number): void {
    if (this.#isGathered) return;
    this.#before.gatherFor(solid);
    this.#isGathered = true;
  }

  #facetsSeen(solid: number): readonly SeenFacet[] {
    const known = this.#notes?.facets;
    if (known !== undefined) return known;
    const facets = this.#facetsOf(solid);
    if (this.#notes !== undefined) this.#notes.facets = facets;
    return facets;
  }

  #drawEdges(solid: number, backs: boolean): void {
    const { edgePoints, edgeNormals, edgeSmooth } = this.#all.ready[solid] as ReadySolid;
    const first = this.#all.pointsOf[solid] as number;
    const { toEye } = this.#gaze;
    const ex = toEye[0];
    const ey = toEye[1];
    const ez = toEye[2];
    for (let edge = 0; edge < edgeSmooth.length; edge++) {
      const one = facing(edgeNormals, 6 * edge, ex, ey, ez) > FACING;
      const other = facing(edgeNormals, 6 * edge + 3, ex, ey, ez) > FACING;
      if (edgeSmooth[edge] === 1 ? one === other : !(one || other || backs)) continue;
      this.#drawLine(
        first + (edgePoints[2 * edge] as number),
        first + (edgePoints[2 * edge + 1] as number),
        one || other,
      );
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
    this.#cells.lookAtCreases(solid);
    for (let crease = creasesOf[solid] as number; crease < end; crease++) {
      const front =
        facing(creaseNormals, 6 * crease, ex, ey, ez) > FACING &&
        facing(creaseNormals, 6 * crease + 3, ex, ey, ez) > FACING;
      if (!front && !backs) continue;
      this.#drawLine(
        creasePoints[2 * crease] as number,
        creasePoints[2 * crease + 1] as number,
        front,
      );
    }
  }

  #drawLine(from: number, to: number, isFront: boolean): void {
    const { x, y, z } = this.#cells.seen;
    const ends = this.#ends;
    ends[0] = x[from] as number;
    ends[1] = y[from] as number;
    ends[2] = z[from] as number;
    ends[3] = x[to] as number;
    ends[4] = y[to] as number;
    ends[5] = z[to] as number;
    if (this.#notes !== undefined && isLine(ends)) this.#notes.add(ends, isFront);
    if (this.#lines.add(ends, 0) && isFront) this.#see(this.#lines, ends, 0);
  }

  /** Tells the lines what can be seen of the one that was added last. */
  #see(lines: SameLines, ends: Float64Array, at: number): void {
    const x0 = ends[at] as number;
    const y0 = ends[at + 1] as number;
    const z0 = ends[at + 2] as number;
    const x1 = ends[at + 3] as number;
    const y1 = ends[at + 4] as number;
    const z1 = ends[at + 5] as number;
    const stretches = this.#stretches;
    const { bounds, cells, solids, count } = this.#before;
    this.#notes?.answer();
    stretches.follow(ends, at);
    const left = Math.min(x0, x1);
    const right = Math.max(x0, x1);
    const bottom = Math.min(y0, y1);
    const top = Math.max(y0, y1);
    const far = Math.min(z0, z1);
    for (let i = 0; i < count; i++) {
      if (!reaches(bounds, i, left, right, bottom, top, far)) continue;
      if (stretches.pass(cells[i] as number, solids[i] as number)) return;
    }
    stretches.tell(lines, this.#notes);
  }

  #facetsOf(solid: number): SeenFacet[] {
    const facets: SeenFacet[] = [];
    const own = (this.#all.solids[solid] as Solid).facets;
    for (let index = 0; index < own.length; index++) {
      const outlines = this.#notes?.outlines[index] ?? this.#outlinesOf(solid, index);
      if (outlines.length > 0) facets.push({ facet: own[index] as Facet, outlines });
    }
    return facets;
  }

  #outlinesOf(solid: number, facet: number): readonly Outline[] {
    const { facetPlanes, facetStarts, facetItems } = this.#all.ready[solid] as ReadySolid;
    const { right, up, toEye } = this.#gaze;
    const at = PLANE * facet;
    const towards = facing(facetPlanes, at, toEye[0], toEye[1], toEye[2]);
    const notes = this.#notes;
    if (towards <= FACING) {
      notes?.addFacet(facet, NO_OUTLINES, NOWHERE);
      return NO_OUTLINES;
    }
    const cutter = this.#cutter;
    this.#gather(solid);
    const { plane } = cutter;
    plane[0] = facing(facetPlanes, at, right[0], right[1], right[2]);
    plane[1] = facing(facetPlanes, at, up[0], up[1], up[2]);
    plane[2] = towards;
    plane[3] = facetPlanes[at + 3] as number;
    cutter.begin(
      facetItems,
      facetStarts[facet] as number,
      facetStarts[facet + 1] as number,
      this.#all.pointsOf[solid] as number,
    );
    const outlines = this.#cutFacet();
    notes?.addFacet(facet, outlines, cutter.room);
    return outlines;
  }

  /** What is left of the facet that the cutter began with. */
  #cutFacet(): readonly Outline[] {
    const cutter = this.#cutter;
    const { room } = cutter;
    const left = room[0] as number;
    const right = room[1] as number;
    const bottom = room[2] as number;
    const top = room[3] as number;
    const far = room[4] as number;
    const { bounds, cells, count } = this.#before;
    for (let i = 0; i < count; i++) {
      if (!reaches(bounds, i, left, right, bottom, top, far)) continue;
      if (cutter.note(cells[i] as number)) return NO_OUTLINES;
    }
    return cutter.take() ? NO_OUTLINES : cutter.outlines();
  }

  #waysSeen(ways: readonly Way[]): Segment[] {
    const lines = new SameLines();
    lines.begin(ways.length, false);
    this.#notes = undefined;
    for (const { from, to } of ways) {
      const [x0, y0] = paperOf(from, this.#gaze);
      const [x1, y1] = paperOf(to, this.#gaze);
      const [z0, z1] = [dot(from, this.#gaze.toEye), dot(to, this.#gaze.toEye)];
      this.#before.gather({
        left: Math.min(x0, x1),
        right: Math.max(x0, x1),
        bottom: Math.min(y0, y1),
        top: Math.max(y0, y1),
        far: Math.min(z0, z1),
      });
      this.#ends.set([x0, y0, z0, x1, y1, z1]);
      if (lines.add(this.#ends, 0)) this.#see(lines, this.#ends, 0);
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

/** Whether it is more than a point on the paper. */
const isLine = (ends: Float64Array): boolean => {
  const dx = (ends[3] as number) - (ends[0] as number);
  const dy = (ends[4] as number) - (ends[1] as number);
  return Math.sqrt(dx * dx + dy * dy) > SAME_LINE;
};

const NO_OUTLINES: readonly Outline[] = [];
/** Around a facet that looks away. */
const NOWHERE = new Float64Array(FACET_ROOM).fill(NaN);

const facing = (normals: Float64Array, at: number, x: number, y: number, z: number): number =>
  (normals[at] as number) * x + (normals[at + 1] as number) * y + (normals[at + 2] as number) * z;

const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
