import type { Convex, Edge, Facet, Solid, Triple } from '@kerfbook/solids';
import { Creases } from './creases.ts';

/** Lists one behind the other: those of `i` are `items[starts[i]]` up to `items[starts[i + 1]]`. */
export interface Lists {
  /** Where each list begins, and last where the last one ends. */
  readonly starts: Int32Array;
  /** All of them. */
  readonly items: Int32Array;
}

/** A plane is four numbers: its normal, and normal · point. */
export const PLANE = 4;

/**
 * Solids as numbers in few long lists, as a view from somewhere goes through all of them and a turn
 * does so at each step. Made once for as long as the solids stay the same.
 */
export interface PreparedSolids {
  /** As they were given. */
  readonly solids: readonly Solid[];
  /** x, y and z of each point, mm. */
  readonly points: Float64Array;
  /** Where the cells, facets and edges of each solid begin. */
  readonly cellsOf: Int32Array;
  /** Of each solid. */
  readonly facetsOf: Int32Array;
  /** Of each solid. */
  readonly edgesOf: Int32Array;
  /** The points of each cell. */
  readonly cellPoints: Lists;
  /** Where the planes of each cell begin, counted in planes. */
  readonly cellPlanesOf: Int32Array;
  /** Those planes. */
  readonly cellPlanes: Float64Array;
  /** The points of each facet, in order. */
  readonly facetPoints: Lists;
  /** The plane of each facet. */
  readonly facetPlanes: Float64Array;
  /** The two points of each edge. */
  readonly edgePoints: Int32Array;
  /** Six numbers for each edge: its two normals. */
  readonly edgeNormals: Float64Array;
  /** 1 where an edge lies between two facets of one curved surface. */
  readonly edgeSmooth: Uint8Array;
  /** Where the creases begin that are told with a solid: each with one of the two that run into each other. */
  readonly creasesOf: Int32Array;
  /** The two points of each crease. */
  readonly creasePoints: Int32Array;
  /** Its two normals. */
  readonly creaseNormals: Float64Array;
}

/** Solids made ready to be looked at. */
export function prepareSolids(solids: readonly Solid[]): PreparedSolids {
  const writer = new Writer();
  for (const solid of solids) writer.add(solid);
  return writer.prepared(solids);
}

class Writer {
  readonly #points: number[] = [];
  readonly #known = new Known(this.#points);
  readonly #cellsOf = [0];
  readonly #facetsOf = [0];
  readonly #edgesOf = [0];
  readonly #cellStarts = [0];
  readonly #cellItems: number[] = [];
  /** The last cell that has a point. */
  readonly #cellOf: number[] = [];
  readonly #cellPlanesOf = [0];
  readonly #cellPlanes: number[] = [];
  readonly #facetStarts = [0];
  readonly #facetItems: number[] = [];
  readonly #facetPlanes: number[] = [];
  readonly #edgePoints: number[] = [];
  readonly #edgeNormals: number[] = [];
  readonly #edgeSmooth: number[] = [];

  add(solid: Solid): void {
    this.#known.forget();
    for (const cell of solid.cells) this.#addCell(cell);
    for (const facet of solid.facets) this.#addFacet(facet);
    for (const edge of solid.edges) this.#addEdge(edge);
    this.#cellsOf.push(this.#cellStarts.length - 1);
    this.#facetsOf.push(this.#facetStarts.length - 1);
    this.#edgesOf.push(this.#edgeSmooth.length);
  }

  #addCell({ facets }: Convex): void {
    const cell = this.#cellStarts.length;
    for (const { points, normal, offset } of facets) {
      this.#cellPlanes.push(normal[0], normal[1], normal[2], offset);
      for (const point of points) {
        const index = this.#known.indexOf(point);
        if (this.#cellOf[index] === cell) continue;
        this.#cellOf[index] = cell;
        this.#cellItems.push(index);
      }
    }
    this.#cellStarts.push(this.#cellItems.length);
    this.#cellPlanesOf.push(this.#cellPlanes.length / PLANE);
  }

  #addFacet({ points, normal, offset }: Facet): void {
    for (const point of points) this.#facetItems.push(this.#known.indexOf(point));
    this.#facetStarts.push(this.#facetItems.length);
    this.#facetPlanes.push(normal[0], normal[1], normal[2], offset);
  }

  #addEdge({ from, to, normals: [one, other], smooth }: Edge): void {
    this.#edgePoints.push(this.#known.indexOf(from), this.#known.indexOf(to));
    this.#edgeNormals.push(one[0], one[1], one[2], other[0], other[1], other[2]);
    this.#edgeSmooth.push(smooth ? 1 : 0);
  }

  prepared(solids: readonly Solid[]): PreparedSolids {
    const facetsOf = new Int32Array(this.#facetsOf);
    const facetPoints = lists(this.#facetStarts, this.#facetItems);
    const facetPlanes = new Float64Array(this.#facetPlanes);
    const creases = new Creases({ points: this.#points, facetsOf, facetPoints, facetPlanes });
    return {
      solids,
      points: new Float64Array(this.#points),
      cellsOf: new Int32Array(this.#cellsOf),
      facetsOf,
      edgesOf: new Int32Array(this.#edgesOf),
      cellPoints: lists(this.#cellStarts, this.#cellItems),
      cellPlanesOf: new Int32Array(this.#cellPlanesOf),
      cellPlanes: new Float64Array(this.#cellPlanes),
      facetPoints,
      facetPlanes,
      edgePoints: new Int32Array(this.#edgePoints),
      edgeNormals: new Float64Array(this.#edgeNormals),
      edgeSmooth: new Uint8Array(this.#edgeSmooth),
      creasesOf: new Int32Array(creases.starts),
      creasePoints: new Int32Array(creases.ends),
      creaseNormals: new Float64Array(creases.normals),
    };
  }
}

const lists = (starts: readonly number[], items: readonly number[]): Lists => ({
  starts: new Int32Array(starts),
  items: new Int32Array(items),
});

/**
 * Gives equal points of one solid one number. Points that are equal but for rounding stay two,
 * which costs time and changes nothing that is drawn.
 */
class Known {
  readonly #points: number[];
  #slots = new Int32Array(64).fill(-1);
  #first = 0;

  constructor(points: number[]) {
    this.#points = points;
  }

  /** Begins with the points of another solid. */
  forget(): void {
    this.#first = this.#points.length / 3;
    this.#slots.fill(-1);
  }

  indexOf([x, y, z]: Triple): number {
    const points = this.#points;
    const slots = this.#slots;
    const mask = slots.length - 1;
    for (let slot = hashOf(x, y, z) & mask; ; slot = (slot + 1) & mask) {
      const index = slots[slot] as number;
      if (index < 0) return this.#note(slot, x, y, z);
      const at = 3 * index;
      if (points[at] === x && points[at + 1] === y && points[at + 2] === z) return index;
    }
  }

  #note(slot: number, x: number, y: number, z: number): number {
    const index = this.#points.length / 3;
    this.#points.push(x, y, z);
    this.#slots[slot] = index;
    if (2 * (index - this.#first) > this.#slots.length) this.#grow();
    return index;
  }

  #grow(): void {
    const slots = new Int32Array(2 * this.#slots.length).fill(-1);
    const mask = slots.length - 1;
    const points = this.#points;
    for (let index = this.#first; 3 * index < points.length; index++) {
      const at = 3 * index;
      let slot =
        hashOf(points[at] as number, points[at + 1] as number, points[at + 2] as number) & mask;
      while ((slots[slot] as number) >= 0) slot = (slot + 1) & mask;
      slots[slot] = index;
    }
    this.#slots = slots;
  }
}

/** Micrometres, so that points of one solid fall apart; −0 and 0, which are equal, fall together. */
const hashOf = (x: number, y: number, z: number): number => {
  const mixed =
    Math.imul(x * 1000, 73856093) ^ Math.imul(y * 1000, 19349663) ^ Math.imul(z * 1000, 83492791);
  return mixed ^ (mixed >>> 15);
};
