import type { Edge, Facet, Solid, Triple } from './solids.ts';

/** Nearer to a plane than this is on it, mm. */
const ON_PLANE = 1e-5;

/**
 * Where surfaces of two solids that run into each other meet, there is an edge that neither has.
 * Each is told once, with the first of the two solids.
 */
export function creasesOf(solids: readonly Solid[]): Edge[][] {
  const creases: Edge[][] = solids.map(() => []);
  const rooms = solids.map(roomOf);
  const order = rooms.map((_, index) => index);
  order.sort((a, b) => (rooms[a]?.low[0] ?? 0) - (rooms[b]?.low[0] ?? 0));
  for (const [place, first] of order.entries()) {
    for (let next = place + 1; next < order.length; next++) {
      const second = order[next] as number;
      const [one, other] = [rooms[first] as Room, rooms[second] as Room];
      if (other.low[0] >= one.high[0] - ON_PLANE) break;
      const shared = sharedRoom(one, other);
      if (shared === undefined) continue;
      const [a, b] = [solids[first] as Solid, solids[second] as Solid];
      creasesBetween(a, b, shared, creases[Math.min(first, second)] as Edge[]);
    }
  }
  return creases;
}

/** An upright box; mm. */
interface Room {
  readonly low: Triple;
  readonly high: Triple;
}

const roomOf = ({ facets }: Solid): Room => around(facets.map(roomOfFacet));

function roomOfFacet({ points }: Facet): Room {
  let [lx, ly, lz] = [Infinity, Infinity, Infinity];
  let [hx, hy, hz] = [-Infinity, -Infinity, -Infinity];
  for (const [x, y, z] of points) {
    if (x < lx) lx = x;
    if (x > hx) hx = x;
    if (y < ly) ly = y;
    if (y > hy) hy = y;
    if (z < lz) lz = z;
    if (z > hz) hz = z;
  }
  return { low: [lx, ly, lz], high: [hx, hy, hz] };
}

function around(rooms: readonly Room[]): Room {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const room of rooms) {
    for (const k of [0, 1, 2] as const) {
      low[k] = Math.min(low[k], room.low[k]);
      high[k] = Math.max(high[k], room.high[k]);
    }
  }
  return { low, high };
}

function sharedRoom(one: Room, other: Room): Room | undefined {
  const low = one.low.map((value, k) => Math.max(value, other.low[k] ?? 0));
  const high = one.high.map((value, k) => Math.min(value, other.high[k] ?? 0));
  if (low.some((value, k) => (high[k] ?? 0) - value <= ON_PLANE)) return undefined;
  return { low: low as unknown as Triple, high: high as unknown as Triple };
}

/** A facet is flat, so that rooms that only touch may hold a crease; only those apart do not. */
const apart = (one: Room, other: Room): boolean =>
  one.low[0] > other.high[0] + ON_PLANE ||
  other.low[0] > one.high[0] + ON_PLANE ||
  one.low[1] > other.high[1] + ON_PLANE ||
  other.low[1] > one.high[1] + ON_PLANE ||
  one.low[2] > other.high[2] + ON_PLANE ||
  other.low[2] > one.high[2] + ON_PLANE;

interface Placed {
  readonly facet: Facet;
  readonly room: Room;
}

function creasesBetween(one: Solid, other: Solid, shared: Room, into: Edge[]): void {
  const ours = facetsIn(one, shared);
  const theirs = facetsIn(other, shared);
  for (const a of ours) {
    for (const b of theirs) {
      if (apart(a.room, b.room)) continue;
      const crease = creaseOf(a.facet, b.facet);
      if (crease !== undefined) into.push(crease);
    }
  }
}

const facetsIn = ({ facets }: Solid, shared: Room): Placed[] =>
  facets
    .map((facet) => ({ facet, room: roomOfFacet(facet) }))
    .filter(({ room }) => !apart(room, shared));

interface Chord {
  readonly from: Triple;
  readonly to: Triple;
}

/** The straight line two facets have in common. */
function creaseOf(one: Facet, other: Facet): Edge | undefined {
  const a = chordOf(one, other);
  if (a === undefined) return undefined;
  const b = chordOf(other, one);
  if (b === undefined) return undefined;
  const along = less(a.to, a.from);
  const length = Math.hypot(along[0], along[1], along[2]);
  if (length <= ON_PLANE) return undefined;
  const place = (point: Triple): number => dot(less(point, a.from), along) / length;
  const [p, q] = [place(b.from), place(b.to)];
  const from = Math.max(0, Math.min(p, q));
  const to = Math.min(length, Math.max(p, q));
  if (to - from <= ON_PLANE) return undefined;
  const at = (share: number): Triple => [
    a.from[0] + along[0] * share,
    a.from[1] + along[1] * share,
    a.from[2] + along[2] * share,
  ];
  return {
    from: at(from / length),
    to: at(to / length),
    normals: [one.normal, other.normal],
    smooth: false,
  };
}

/**
 * Where a facet crosses the plane of another one. A facet that only comes up to that plane counts
 * when it lies behind it: of two facets of one face that meet there, it is then one that counts.
 */
function chordOf({ points }: Facet, { normal, offset }: Facet): Chord | undefined {
  let [least, most] = [Infinity, -Infinity];
  for (const point of points) {
    const height = dot(normal, point) - offset;
    if (height < least) least = height;
    if (height > most) most = height;
  }
  if (least >= -ON_PLANE || most < -ON_PLANE) return undefined;
  const met: Triple[] = [];
  let before = points.at(-1) as Triple;
  let was = dot(normal, before) - offset;
  for (const point of points) {
    const is = dot(normal, point) - offset;
    if (Math.abs(is) <= ON_PLANE) met.push(point);
    else if (Math.abs(was) > ON_PLANE && was > 0 !== is > 0) {
      met.push(between(before, point, was / (was - is)));
    }
    before = point;
    was = is;
  }
  return farthest(met);
}

/** Of points on one line, the two that lie farthest apart. */
function farthest(points: readonly Triple[]): Chord | undefined {
  const [first, second] = points;
  if (first === undefined || second === undefined) return undefined;
  if (points.length === 2) return { from: first, to: second };
  const far = (from: Triple): Triple =>
    points.reduce((best, point) => (apartBy(point, from) > apartBy(best, from) ? point : best));
  const from = far(first);
  return { from, to: far(from) };
}

const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const less = (a: Triple, b: Triple): Triple => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const apartBy = (a: Triple, b: Triple): number => dot(less(a, b), less(a, b));
const between = (a: Triple, b: Triple, share: number): Triple => [
  a[0] + share * (b[0] - a[0]),
  a[1] + share * (b[1] - a[1]),
  a[2] + share * (b[2] - a[2]),
];
