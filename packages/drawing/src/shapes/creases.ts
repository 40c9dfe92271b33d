import { PLANE, type ReadySolid, ROOM } from './ready-solid.ts';

/** Nearer to a plane than this is on it, mm. */
const ON_PLANE = 1e-5;

/** Where the surfaces of two solids that run into each other meet: edges that neither has. */
export interface Creases {
  /** Six numbers for each: its two ends, mm. */
  readonly ends: readonly number[];
  /** Six numbers for each: its two normals. */
  readonly normals: readonly number[];
}

const known = new WeakMap<ReadySolid, WeakMap<ReadySolid, Creases>>();

/** For each solid the creases it has with those behind it in the list, so that each is told once. */
export function creasesAmong(solids: readonly ReadySolid[]): Creases[][] {
  const among: Creases[][] = solids.map(() => []);
  const order = solids.map((_, index) => index);
  const low = solids.map(({ room }) => room[0] as number);
  order.sort((a, b) => (low[a] as number) - (low[b] as number));
  for (let place = 0; place < order.length; place++) {
    const one = order[place] as number;
    const { room } = solids[one] as ReadySolid;
    for (let next = place + 1; next < order.length; next++) {
      const other = order[next] as number;
      if ((low[other] as number) >= (room[3] as number)) break;
      if (!meet(room, 0, (solids[other] as ReadySolid).room, 0, -ON_PLANE)) continue;
      const [first, second] = one < other ? [one, other] : [other, one];
      const creases = creasesOf(solids[first] as ReadySolid, solids[second] as ReadySolid);
      if (creases.ends.length > 0) (among[first] as Creases[]).push(creases);
    }
  }
  return among;
}

/** Remembered, as most pairs of a change are those of before. */
function creasesOf(one: ReadySolid, other: ReadySolid): Creases {
  let others = known.get(one);
  if (others === undefined) {
    others = new WeakMap();
    known.set(one, others);
  }
  const before = others.get(other);
  if (before !== undefined) return before;
  const creases = new CreasesBetween(one, other);
  const found = { ends: creases.ends, normals: creases.normals };
  others.set(other, found);
  return found;
}

class CreasesBetween implements Creases {
  readonly ends: number[] = [];
  readonly normals: number[] = [];
  readonly #one: ReadySolid;
  readonly #other: ReadySolid;
  readonly #shared = new Float64Array(ROOM);
  /** Set by `#chord`: the ends of where a facet meets a plane. */
  readonly #met = new Float64Array(6);

  constructor(one: ReadySolid, other: ReadySolid) {
    this.#one = one;
    this.#other = other;
    for (let k = 0; k < 3; k++) {
      this.#shared[k] = Math.max(one.room[k] as number, other.room[k] as number);
      this.#shared[k + 3] = Math.min(one.room[k + 3] as number, other.room[k + 3] as number);
    }
    const theirs = this.#facetsIn(other);
    if (theirs.length === 0) return;
    // A facet is flat, so that rooms that only touch may hold a crease; only those apart do not.
    for (const a of this.#facetsIn(one)) {
      for (const b of theirs) {
        if (meet(one.facetRooms, a, other.facetRooms, b, ON_PLANE)) this.#crease(a, b);
      }
    }
  }

  #facetsIn({ facetRooms }: ReadySolid): number[] {
    const facets: number[] = [];
    for (let facet = 0; ROOM * facet < facetRooms.length; facet++) {
      if (meet(facetRooms, facet, this.#shared, 0, ON_PLANE)) facets.push(facet);
    }
    return facets;
  }

  /** The straight line a facet of the one and a facet of the other have in common. */
  #crease(a: number, b: number): void {
    const met = this.#met;
    if (!this.#chord(this.#other, b, this.#one, a)) return;
    const [px = 0, py = 0, pz = 0, qx = 0, qy = 0, qz = 0] = met;
    if (!this.#chord(this.#one, a, this.#other, b)) return;
    const [x, y, z] = [met[0] as number, met[1] as number, met[2] as number];
    const [dx, dy, dz] = [(met[3] as number) - x, (met[4] as number) - y, (met[5] as number) - z];
    const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (length <= ON_PLANE) return;
    const p = ((px - x) * dx + (py - y) * dy + (pz - z) * dz) / length;
    const q = ((qx - x) * dx + (qy - y) * dy + (qz - z) * dz) / length;
    const from = Math.max(0, Math.min(p, q));
    const to = Math.min(length, Math.max(p, q));
    if (to - from <= ON_PLANE) return;
    for (const share of [from / length, to / length]) {
      this.ends.push(x + dx * share, y + dy * share, z + dz * share);
    }
    this.#addNormal(this.#one, a);
    this.#addNormal(this.#other, b);
  }

  #addNormal({ facetPlanes }: ReadySolid, facet: number): void {
    for (let k = 0; k < 3; k++) this.normals.push(facetPlanes[PLANE * facet + k] as number);
  }

  /**
   * Where a facet crosses the plane of another one. A facet that only comes up to that plane counts
   * when it lies behind it: of two facets of one face that meet there, it is then one that counts.
   */
  #chord(solid: ReadySolid, facet: number, { facetPlanes }: ReadySolid, by: number): boolean {
    const { points, facetStarts, facetItems } = solid;
    const [start, end] = [facetStarts[facet] as number, facetStarts[facet + 1] as number];
    let [least, most] = [Infinity, -Infinity];
    for (let i = start; i < end; i++) {
      const height = heightOf(points, facetItems[i] as number, facetPlanes, by);
      if (height < least) least = height;
      if (height > most) most = height;
    }
    if (least >= -ON_PLANE || most < -ON_PLANE) return false;
    let count = 0;
    let before = facetItems[end - 1] as number;
    let was = heightOf(points, before, facetPlanes, by);
    for (let i = start; i < end; i++) {
      const point = facetItems[i] as number;
      const is = heightOf(points, point, facetPlanes, by);
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
    const apart = Math.hypot(bx - ax, by - ay, bz - az);
    if (Math.hypot(x - ax, y - ay, z - az) > apart) met.set([x, y, z], 3);
    else if (Math.hypot(x - bx, y - by, z - bz) > apart) met.set([x, y, z], 0);
  }
}

/** Of a point over a plane. */
function heightOf(
  points: Float64Array,
  point: number,
  planes: Float64Array,
  plane: number,
): number {
  const [p, n] = [3 * point, PLANE * plane];
  return (
    (points[p] as number) * (planes[n] as number) +
    (points[p + 1] as number) * (planes[n + 1] as number) +
    (points[p + 2] as number) * (planes[n + 2] as number) -
    (planes[n + 3] as number)
  );
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
