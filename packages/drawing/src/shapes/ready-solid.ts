import type { Solid, Triple } from '@kerfbook/solids';

/** A plane is four numbers: its normal, and normal · point. */
export const PLANE = 4;
/** A room is six: least x, y and z, then most. */
export const ROOM = 6;

/** One solid as numbers; its points, cells and facets are counted from its own first ones. */
export interface ReadySolid {
  /** x, y and z of each point, mm. */
  readonly points: Float64Array;
  /** Where the points of each cell begin in the list of them, and last where the last ones end. */
  readonly cellStarts: Int32Array;
  readonly cellItems: Int32Array;
  /** Where the planes of each cell begin, counted in planes, and last where the last ones end. */
  readonly cellPlanesOf: Int32Array;
  readonly cellPlanes: Float64Array;
  /** Where the points of each facet begin in the list of them, and last where the last ones end. */
  readonly facetStarts: Int32Array;
  readonly facetItems: Int32Array;
  readonly facetPlanes: Float64Array;
  /** Around each facet. */
  readonly facetRooms: Float64Array;
  /** Around all facets. */
  readonly room: Float64Array;
  readonly edgePoints: Int32Array;
  readonly edgeNormals: Float64Array;
  readonly edgeSmooth: Uint8Array;
}

const known = new WeakMap<Solid, ReadySolid>();

/** A solid as numbers; remembered, as most solids of a change are those of before. */
export function readySolid(solid: Solid): ReadySolid {
  const before = known.get(solid);
  if (before !== undefined) return before;
  const ready = made(solid);
  known.set(solid, ready);
  return ready;
}

function made({ cells, facets, edges }: Solid): ReadySolid {
  const points = new Points();
  const cellStarts = new Int32Array(cells.length + 1);
  const cellPlanesOf = new Int32Array(cells.length + 1);
  const cellItems: number[] = [];
  const cellPlanes = new Float64Array(PLANE * cells.reduce((sum, c) => sum + c.facets.length, 0));
  /** The last cell that has a point. */
  const cellOf: number[] = [];
  let plane = 0;
  for (const [cell, { facets: around }] of cells.entries()) {
    for (const facet of around) {
      setPlane(cellPlanes, plane++, facet);
      for (const point of facet.points) {
        const index = points.indexOf(point);
        if (cellOf[index] === cell) continue;
        cellOf[index] = cell;
        cellItems.push(index);
      }
    }
    cellStarts[cell + 1] = cellItems.length;
    cellPlanesOf[cell + 1] = plane;
  }
  const facetStarts = new Int32Array(facets.length + 1);
  const facetItems = new Int32Array(facets.reduce((sum, facet) => sum + facet.points.length, 0));
  const facetPlanes = new Float64Array(PLANE * facets.length);
  const facetRooms = new Float64Array(ROOM * facets.length);
  const room = new Float64Array(ROOM);
  empty(room, 0);
  let item = 0;
  for (const [index, facet] of facets.entries()) {
    setPlane(facetPlanes, index, facet);
    empty(facetRooms, ROOM * index);
    for (const point of facet.points) {
      facetItems[item++] = points.indexOf(point);
      widen(facetRooms, ROOM * index, point);
      widen(room, 0, point);
    }
    facetStarts[index + 1] = item;
  }
  const edgePoints = new Int32Array(2 * edges.length);
  const edgeNormals = new Float64Array(6 * edges.length);
  const edgeSmooth = new Uint8Array(edges.length);
  for (const [index, { from, to, normals, smooth }] of edges.entries()) {
    edgePoints[2 * index] = points.indexOf(from);
    edgePoints[2 * index + 1] = points.indexOf(to);
    for (let k = 0; k < 3; k++) {
      edgeNormals[6 * index + k] = normals[0][k] as number;
      edgeNormals[6 * index + 3 + k] = normals[1][k] as number;
    }
    edgeSmooth[index] = smooth ? 1 : 0;
  }
  return {
    points: points.all(),
    cellStarts,
    cellItems: new Int32Array(cellItems),
    cellPlanesOf,
    cellPlanes,
    facetStarts,
    facetItems,
    facetPlanes,
    facetRooms,
    room,
    edgePoints,
    edgeNormals,
    edgeSmooth,
  };
}

function setPlane(
  planes: Float64Array,
  index: number,
  { normal, offset }: { readonly normal: Triple; readonly offset: number },
): void {
  const at = PLANE * index;
  planes[at] = normal[0];
  planes[at + 1] = normal[1];
  planes[at + 2] = normal[2];
  planes[at + 3] = offset;
}

function empty(rooms: Float64Array, at: number): void {
  for (let k = 0; k < 3; k++) {
    rooms[at + k] = Infinity;
    rooms[at + k + 3] = -Infinity;
  }
}

function widen(rooms: Float64Array, at: number, point: Triple): void {
  for (let k = 0; k < 3; k++) {
    const value = point[k] as number;
    if (value < (rooms[at + k] as number)) rooms[at + k] = value;
    if (value > (rooms[at + k + 3] as number)) rooms[at + k + 3] = value;
  }
}

/**
 * Gives equal points one number. Points that are equal but for rounding stay two, which costs time
 * and changes nothing that is drawn.
 */
class Points {
  readonly #points: number[] = [];
  #slots = new Int32Array(64).fill(-1);

  all(): Float64Array {
    return new Float64Array(this.#points);
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
    if (2 * index > this.#slots.length) this.#grow();
    return index;
  }

  #grow(): void {
    const slots = new Int32Array(2 * this.#slots.length).fill(-1);
    const mask = slots.length - 1;
    const points = this.#points;
    for (let index = 0; 3 * index < points.length; index++) {
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
