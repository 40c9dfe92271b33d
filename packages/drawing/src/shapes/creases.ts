import type { Lists } from './prepared.ts';

/** Nearer to a plane than this is on it, mm. */
const ON_PLANE = 1e-5;

/** Least and most of x, y and z. */
const ROOM = 6;
/** A normal and an offset. */
const PLANE = 4;

/** The outsides of solids as numbers; see `PreparedSolids`. */
export interface Outsides {
  /** x, y and z of each point; the ends of creases are added to them. */
  readonly points: number[];
  /** Where the facets of each solid begin. */
  readonly facetsOf: Int32Array;
  /** The points of each facet. */
  readonly facetPoints: Lists;
  /** The plane of each facet. */
  readonly facetPlanes: Float64Array;
}

/**
 * Where surfaces of two solids that run into each other meet, there is an edge that neither has.
 * Each is told once, with the first of the two solids.
 */
export class Creases {
  /** Where those of each solid begin, and last where the last ones end. */
  readonly starts: number[] = [0];
  /** The two points of each crease. */
  readonly ends: number[] = [];
  /** Its two normals. */
  readonly normals: number[] = [];
  readonly #outsides: Outsides;
  readonly #facetRooms: Float64Array;
  readonly #rooms: Float64Array;
  readonly #shared = new Float64Array(ROOM);
  /** Set by `#chord`: the ends of where a facet meets a plane. */
  readonly #met = new Float64Array(6);

  constructor(outsides: Outsides) {
    this.#outsides = outsides;
    this.#facetRooms = roomsOfFacets(outsides);
    this.#rooms = roomsOfSolids(outsides.facetsOf, this.#facetRooms);
    const others = this.#pairs();
    for (const [one, list] of others.entries()) {
      for (const other of list) this.#between(one, other);
      this.starts.push(this.ends.length / 2);
    }
  }

  /** For each solid those behind it in the list whose rooms reach into its own. */
  #pairs(): number[][] {
    const rooms = this.#rooms;
    const count = rooms.length / ROOM;
    const others: number[][] = Array.from({ length: count }, () => []);
    const order = others.map((_, index) => index);
    order.sort((a, b) => (rooms[a * ROOM] as number) - (rooms[b * ROOM] as number));
    for (let place = 0; place < count; place++) {
      const one = order[place] as number;
      for (let next = place + 1; next < count; next++) {
        const other = order[next] as number;
        if ((rooms[other * ROOM] as number) >= (rooms[one * ROOM + 3] as number)) break;
        if (!meet(rooms, one, rooms, other, -ON_PLANE)) continue;
        (others[Math.min(one, other)] as number[]).push(Math.max(one, other));
      }
    }
    return others;
  }

  #between(one: number, other: number): void {
    const rooms = this.#facetRooms;
    for (let k = 0; k < 3; k++) {
      const [a, b] = [one * ROOM + k, other * ROOM + k];
      this.#shared[k] = Math.max(this.#rooms[a] as number, this.#rooms[b] as number);
      this.#shared[k + 3] = Math.min(this.#rooms[a + 3] as number, this.#rooms[b + 3] as number);
    }
    const theirs = this.#facetsIn(other);
    if (theirs.length === 0) return;
    // A facet is flat, so that rooms that only touch may hold a crease; only those apart do not.
    for (const a of this.#facetsIn(one)) {
      for (const b of theirs) if (meet(rooms, a, rooms, b, ON_PLANE)) this.#crease(a, b);
    }
  }

  #facetsIn(solid: number): number[] {
    const { facetsOf } = this.#outsides;
    const facets: number[] = [];
    const end = facetsOf[solid + 1] as number;
    for (let facet = facetsOf[solid] as number; facet < end; facet++) {
      if (meet(this.#facetRooms, facet, this.#shared, 0, ON_PLANE)) facets.push(facet);
    }
    return facets;
  }

  /** The straight line two facets have in common. */
  #crease(one: number, other: number): void {
    const met = this.#met;
    if (!this.#chord(other, one)) return;
    const [px = 0, py = 0, pz = 0, qx = 0, qy = 0, qz = 0] = met;
    if (!this.#chord(one, other)) return;
    const [x, y, z] = [met[0] as number, met[1] as number, met[2] as number];
    const [dx, dy, dz] = [(met[3] as number) - x, (met[4] as number) - y, (met[5] as number) - z];
    const length = Math.hypot(dx, dy, dz);
    if (length <= ON_PLANE) return;
    const p = ((px - x) * dx + (py - y) * dy + (pz - z) * dz) / length;
    const q = ((qx - x) * dx + (qy - y) * dy + (qz - z) * dz) / length;
    const from = Math.max(0, Math.min(p, q));
    const to = Math.min(length, Math.max(p, q));
    if (to - from <= ON_PLANE) return;
    const { points } = this.#outsides;
    for (const share of [from / length, to / length]) {
      this.ends.push(points.length / 3);
      points.push(x + dx * share, y + dy * share, z + dz * share);
    }
    this.#addNormal(one);
    this.#addNormal(other);
  }

  #addNormal(facet: number): void {
    const { facetPlanes } = this.#outsides;
    for (let k = 0; k < 3; k++) this.normals.push(facetPlanes[PLANE * facet + k] as number);
  }

  /**
   * Where a facet crosses the plane of another one. A facet that only comes up to that plane counts
   * when it lies behind it: of two facets of one face that meet there, it is then one that counts.
   */
  #chord(facet: number, by: number): boolean {
    const { facetPoints, points } = this.#outsides;
    const { starts, items } = facetPoints;
    const [start, end] = [starts[facet] as number, starts[facet + 1] as number];
    let [least, most] = [Infinity, -Infinity];
    for (let i = start; i < end; i++) {
      const height = this.#height(items[i] as number, by);
      if (height < least) least = height;
      if (height > most) most = height;
    }
    if (least >= -ON_PLANE || most < -ON_PLANE) return false;
    let count = 0;
    let before = items[end - 1] as number;
    let was = this.#height(before, by);
    for (let i = start; i < end; i++) {
      const point = items[i] as number;
      const is = this.#height(point, by);
      const isOn = Math.abs(is) <= ON_PLANE;
      if (isOn || (Math.abs(was) > ON_PLANE && was > 0 !== is > 0)) {
        const share = isOn ? 1 : was / (was - is);
        const [a, b] = [3 * before, 3 * point];
        const [x, y, z] = [points[a] as number, points[a + 1] as number, points[a + 2] as number];
        this.#meetAt(
          count++,
          x + share * ((points[b] as number) - x),
          y + share * ((points[b + 1] as number) - y),
          z + share * ((points[b + 2] as number) - z),
        );
      }
      before = point;
      was = is;
    }
    return count > 1;
  }

  /** Notes where a facet meets a plane: of more than two places, which lie on one edge, those farthest apart. */
  #meetAt(count: number, x: number, y: number, z: number): void {
    const met = this.#met;
    if (count < 2) {
      met.set([x, y, z], 3 * count);
      return;
    }
    const [ax = 0, ay = 0, az = 0, bx = 0, by = 0, bz = 0] = met;
    const known = Math.hypot(bx - ax, by - ay, bz - az);
    if (Math.hypot(x - ax, y - ay, z - az) > known) met.set([x, y, z], 3);
    else if (Math.hypot(x - bx, y - by, z - bz) > known) met.set([x, y, z], 0);
  }

  /** Of a point over the plane of a facet. */
  #height(point: number, facet: number): number {
    const { points, facetPlanes } = this.#outsides;
    const [p, n] = [3 * point, PLANE * facet];
    return (
      (points[p] as number) * (facetPlanes[n] as number) +
      (points[p + 1] as number) * (facetPlanes[n + 1] as number) +
      (points[p + 2] as number) * (facetPlanes[n + 2] as number) -
      (facetPlanes[n + 3] as number)
    );
  }
}

/** Whether two rooms meet, or are no farther apart than a gap along any axis. */
function meet(
  one: Float64Array,
  first: number,
  other: Float64Array,
  second: number,
  gap: number,
): boolean {
  const [a, b] = [first * ROOM, second * ROOM];
  for (let k = 0; k < 3; k++) {
    if ((one[a + k] as number) > (other[b + k + 3] as number) + gap) return false;
    if ((other[b + k] as number) > (one[a + k + 3] as number) + gap) return false;
  }
  return true;
}

function roomsOfFacets({ points, facetPoints: { starts, items } }: Outsides): Float64Array {
  const rooms = empty(starts.length - 1);
  for (let facet = 0; facet < starts.length - 1; facet++) {
    const end = starts[facet + 1] as number;
    for (let i = starts[facet] as number; i < end; i++) {
      const at = 3 * (items[i] as number);
      for (let k = 0; k < 3; k++)
        widen(rooms, facet, k, points[at + k] as number, points[at + k] as number);
    }
  }
  return rooms;
}

function roomsOfSolids(facetsOf: Int32Array, facetRooms: Float64Array): Float64Array {
  const rooms = empty(facetsOf.length - 1);
  for (let solid = 0; solid < facetsOf.length - 1; solid++) {
    const end = facetsOf[solid + 1] as number;
    for (let facet = facetsOf[solid] as number; facet < end; facet++) {
      const at = facet * ROOM;
      for (let k = 0; k < 3; k++) {
        widen(rooms, solid, k, facetRooms[at + k] as number, facetRooms[at + k + 3] as number);
      }
    }
  }
  return rooms;
}

function empty(count: number): Float64Array {
  const rooms = new Float64Array(count * ROOM);
  for (let at = 0; at < rooms.length; at++) rooms[at] = at % ROOM < 3 ? Infinity : -Infinity;
  return rooms;
}

function widen(rooms: Float64Array, index: number, k: number, low: number, high: number): void {
  const at = index * ROOM + k;
  if (low < (rooms[at] as number)) rooms[at] = low;
  if (high > (rooms[at + 3] as number)) rooms[at + 3] = high;
}
