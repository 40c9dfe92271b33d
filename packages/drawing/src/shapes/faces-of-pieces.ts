import type { Facet, Solid, Triple } from '@kerfbook/solids';
import { type Eye, gazeOf } from '../eye.ts';
import type { SeenFace, SeenPiece } from '../parallel.ts';
import type { Axis, Piece } from '../scene.ts';
import { STEPS_OF_CURVES, stepsOfCurves } from '../shade.ts';
import type { Outline } from '../visible-face.ts';
import { areaOf } from '../wood-grain.ts';
import { solidOf } from './scene-solids.ts';
import type { SeenFacet } from './seen-facet.ts';

/** What of the facets of a solid is the same from everywhere. */
interface Surfaces {
  /** The surface of each facet, counted from 0 as they come. */
  readonly of: Int32Array;
  /** Of each facet, mm². */
  readonly areas: Float64Array;
  /** How many surfaces there are. */
  readonly count: number;
}

/** A face while it is gathered. */
interface Group {
  readonly facets: Facet[];
  readonly outlines: Outline[];
}

const known = new WeakMap<Solid, Surfaces>();

/** Puts what is seen of facets from an eye together to faces, a piece at a time. */
export class FacesOfPieces {
  readonly #toEye: Triple;
  readonly #stepOf: (normal: Triple) => number;
  /** Of each surface what is drawn of it, and what of it looks towards the eye, mm². */
  #drawn: Float64Array = new Float64Array(64);
  #own: Float64Array = new Float64Array(64);
  /** 1 for each surface of which something is drawn. */
  #isDrawn: Uint8Array = new Uint8Array(64);

  constructor(eye: Eye) {
    this.#toEye = gazeOf(eye).toEye;
    this.#stepOf = stepsOfCurves(eye);
  }

  /** A piece with what is seen of its facets, which come in the order the solid has them. */
  of(piece: Piece, seen: readonly SeenFacet[]): SeenPiece {
    if (seen.length === 0) return { piece, faces: [], share: 0 };
    const solid = solidOf(piece);
    const surfaces = surfacesOf(solid);
    this.#begin(surfaces.count);
    const groups = new Map<number, Group>();
    const own = solid.facets;
    let at = 0;
    for (let i = 0; i < seen.length; i++) {
      const { facet, outlines } = seen[i] as SeenFacet;
      while (own[at] !== facet) at++;
      const surface = surfaces.of[at] as number;
      // A flat face is one; of a curved one, as much as has the same shade.
      const step = facet.curved ? this.#stepOf(facet.normal) : 0;
      const key = surface * STEPS_OF_CURVES + step;
      let group = groups.get(key);
      if (group === undefined) {
        group = { facets: [], outlines: [] };
        groups.set(key, group);
      }
      group.facets.push(facet);
      let area = 0;
      for (let k = 0; k < outlines.length; k++) {
        const outline = outlines[k] as Outline;
        group.outlines.push(outline);
        area += Math.abs(areaOf(outline));
      }
      this.#isDrawn[surface] = 1;
      this.#drawn[surface] = (this.#drawn[surface] as number) + area;
    }
    const faces: SeenFace[] = [];
    groups.forEach(({ facets, outlines }) => {
      const axis = axisOf((facets[0] as Facet).normal);
      // A box among shaped pieces is shaded and grained as it is among boxes.
      faces.push(piece.solid === undefined ? { axis, outlines } : { axis, outlines, facets });
    });
    return { piece, faces, share: this.#share(own, surfaces) };
  }

  #begin(surfaces: number): void {
    if (surfaces > this.#own.length) {
      this.#drawn = new Float64Array(2 * surfaces);
      this.#own = new Float64Array(2 * surfaces);
      this.#isDrawn = new Uint8Array(2 * surfaces);
    }
    this.#drawn.fill(0, 0, surfaces);
    this.#own.fill(0, 0, surfaces);
    this.#isDrawn.fill(0, 0, surfaces);
  }

  /** Of its surface that shows best, how much is drawn, of what of it looks towards the eye. */
  #share(facets: readonly Facet[], { of, areas, count }: Surfaces): number {
    const ex = this.#toEye[0];
    const ey = this.#toEye[1];
    const ez = this.#toEye[2];
    for (let i = 0; i < facets.length; i++) {
      const surface = of[i] as number;
      if (this.#isDrawn[surface] === 0) continue;
      const { normal } = facets[i] as Facet;
      if (normal[0] * ex + normal[1] * ey + normal[2] * ez <= 0) continue;
      this.#own[surface] = (this.#own[surface] as number) + (areas[i] as number);
    }
    let best = 0;
    for (let surface = 0; surface < count; surface++) {
      const own = this.#own[surface] as number;
      if (own > 0) best = Math.max(best, (this.#drawn[surface] as number) / own);
    }
    return best;
  }
}

function surfacesOf(solid: Solid): Surfaces {
  const before = known.get(solid);
  if (before !== undefined) return before;
  const places = new Map<number, number>();
  const of = new Int32Array(solid.facets.length);
  const areas = new Float64Array(solid.facets.length);
  for (const [index, facet] of solid.facets.entries()) {
    const place = places.get(facet.surface) ?? places.size;
    places.set(facet.surface, place);
    of[index] = place;
    areas[index] = facetArea(facet);
  }
  const surfaces = { of, areas, count: places.size };
  known.set(solid, surfaces);
  return surfaces;
}

/** The axis that a direction runs along most. */
function axisOf([x, y, z]: Triple): Axis {
  const isY = Math.abs(y) > Math.abs(x) + 1e-9;
  if (Math.abs(z) > Math.abs(isY ? y : x) + 1e-9) return 'z';
  return isY ? 'y' : 'x';
}

/** mm², of a flat convex polygon. */
function facetArea({ points, normal }: Facet): number {
  const [first] = points;
  if (first === undefined) return 0;
  let twice = 0;
  for (const [index, point] of points.entries()) {
    const next = points[(index + 1) % points.length] ?? first;
    const [ax, ay, az] = [point[0] - first[0], point[1] - first[1], point[2] - first[2]];
    const [bx, by, bz] = [next[0] - first[0], next[1] - first[1], next[2] - first[2]];
    twice +=
      (ay * bz - az * by) * normal[0] +
      (az * bx - ax * bz) * normal[1] +
      (ax * by - ay * bx) * normal[2];
  }
  return Math.abs(twice) / 2;
}
