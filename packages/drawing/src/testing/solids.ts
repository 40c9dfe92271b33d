import type { Convex, Edge, Facet, Solid, Triple } from '@kerfbook/solids';
import type { Numbers } from './boxes.ts';

/** Solids for tests, built straight from their corners: nothing of it is used by what is under test. */

export const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const plus = (a: Triple, b: Triple, share = 1): Triple => [
  a[0] + share * b[0],
  a[1] + share * b[1],
  a[2] + share * b[2],
];
const less = (a: Triple, b: Triple): Triple => plus(a, b, -1);
const unit = (a: Triple): Triple => plus([0, 0, 0], a, 1 / Math.hypot(...a));

/** A turn and a move. */
export type Placing = (point: Triple) => Triple;

export const moved =
  (by: Triple): Placing =>
  (point) =>
    plus(point, by);

/** Turned about x, then y, then z, degrees, and moved. */
export function turned(degrees: Triple, by: Triple): Placing {
  const [a, b, c] = degrees.map((d) => (d * Math.PI) / 180) as [number, number, number];
  return ([x, y, z]) => {
    const [y1, z1] = [y * Math.cos(a) - z * Math.sin(a), y * Math.sin(a) + z * Math.cos(a)];
    const [x2, z2] = [x * Math.cos(b) + z1 * Math.sin(b), z1 * Math.cos(b) - x * Math.sin(b)];
    const [x3, y3] = [x2 * Math.cos(c) - y1 * Math.sin(c), x2 * Math.sin(c) + y1 * Math.cos(c)];
    return plus([x3, y3, z2], by);
  };
}

export function facetOf(points: readonly Triple[], surface: number, curved = false): Facet {
  // By the longest way across, so that short sides do not blur it.
  let normal: Triple = [0, 0, 0];
  const [first] = points as readonly [Triple];
  for (const [index, point] of points.entries()) {
    const next = points[(index + 1) % points.length] as Triple;
    normal = plus(normal, cross(less(point, first), less(next, first)));
  }
  normal = unit(normal);
  return { points, normal, offset: dot(normal, first), surface, curved };
}

/** Where facets meet: each pair of corners that two of them share. */
function edgesOf(facets: readonly Facet[]): Edge[] {
  const open = new Map<string, Facet>();
  const edges: Edge[] = [];
  for (const facet of facets) {
    for (const [index, from] of facet.points.entries()) {
      const to = facet.points[(index + 1) % facet.points.length] as Triple;
      const other = open.get(`${to} ${from}`);
      if (other === undefined) {
        open.set(`${from} ${to}`, facet);
        continue;
      }
      const smooth = facet.curved && facet.surface === other.surface;
      edges.push({ from, to, normals: [facet.normal, other.normal], smooth });
    }
  }
  return edges;
}

/** A convex solid of one cell. */
export function convex(facets: readonly Facet[]): Solid {
  return { cells: [{ facets }], facets, edges: edgesOf(facets) };
}

/** What stands between two polygons with as many corners each, anticlockwise from above. */
export function between(
  bottom: readonly Triple[],
  top: readonly Triple[],
  place: Placing,
  curved = false,
): Solid {
  const [low, high] = [bottom.map(place), top.map(place)];
  const sides = low.map((corner, index) => {
    const next = (index + 1) % low.length;
    const points = [corner, low[next], high[next], high[index]] as Triple[];
    return facetOf(points, curved ? 2 : 2 + index, curved);
  });
  return convex([facetOf([...low].reverse(), 0), facetOf(high, 1), ...sides]);
}

const rectangle = (x: number, y: number, dx: number, dy: number, z: number): Triple[] => [
  [x, y, z],
  [x + dx, y, z],
  [x + dx, y + dy, z],
  [x, y + dy, z],
];

export const box = ([x, y, z, dx, dy, dz]: Numbers, place: Placing = (point) => point): Solid =>
  between(rectangle(x, y, dx, dy, z), rectangle(x, y, dx, dy, z + dz), place);

/** A leg that is narrower at the foot, and stands out to a side. */
export function leg(
  width: number,
  foot: number,
  height: number,
  splay: readonly [number, number],
  place: Placing,
): Solid {
  const bottom = rectangle(splay[0], splay[1], foot, foot, 0);
  return between(bottom, rectangle(0, 0, width, width, height), place);
}

/** Round stuff as a prism of many sides, thinner at its upper end by a share. */
export function round(
  sides: number,
  radius: number,
  length: number,
  place: Placing,
  share = 1,
): Solid {
  const ring = (r: number, z: number): Triple[] =>
    Array.from({ length: sides }, (_, i) => {
      const angle = (2 * Math.PI * i) / sides;
      return [r * Math.cos(angle), r * Math.sin(angle), z];
    });
  return between(ring(radius, 0), ring(radius * share, length), place, true);
}

/** A box with a pocket cut into its near side: five cells around the pocket. */
export function pocketed(
  [dx, dy, dz]: Triple,
  [px, pz, width, height, depth]: readonly [number, number, number, number, number],
  place: Placing,
): Solid {
  const cells = [
    box([0, depth, 0, dx, dy - depth, dz], place),
    box([0, 0, 0, px, depth, dz], place),
    box([px + width, 0, 0, dx - px - width, depth, dz], place),
    box([px, 0, 0, width, depth, pz], place),
    box([px, 0, pz + height, width, depth, dz - pz - height], place),
  ];
  const whole = box([0, 0, 0, dx, dy, dz], place);
  const hole = box([px, 0, pz, width, depth, height], place);
  const near = (solid: Solid): Facet => solid.facets[2] as Facet;
  const walls = hole.facets
    .filter((facet) => facet !== near(hole))
    .map(({ points }, index) => facetOf([...points].reverse(), 10 + index));
  const inside = edgesOf(hole.facets).map((edge): Edge => {
    const [a, b] = edge.normals.map(
      // The rim lies between the near side and a wall.
      (normal) => (normal === near(hole).normal ? normal : plus([0, 0, 0], normal, -1)),
    ) as [Triple, Triple];
    return { ...edge, normals: [a, b] };
  });
  return {
    cells: cells.map(({ facets }): Convex => ({ facets })),
    facets: [
      ...whole.facets.filter((facet) => facet !== near(whole)),
      ...cells.slice(1).map(near),
      ...walls,
    ],
    edges: [...whole.edges, ...inside],
  };
}

/** The same solid, with each cell that a plane goes through cut in two by it. */
export function parted(solid: Solid, normal: Triple, offset: number): Solid {
  const cells = solid.cells.flatMap((cell) => {
    const heights = cell.facets.flatMap(({ points }) => points.map((p) => dot(normal, p) - offset));
    if (heights.every((h) => h < 1e-6) || heights.every((h) => h > -1e-6)) return [cell];
    return [half(cell, normal, offset), half(cell, plus([0, 0, 0], normal, -1), -offset)];
  });
  return { ...solid, cells };
}

/** What of a convex body lies where normal · point <= offset. */
function half({ facets }: Convex, normal: Triple, offset: number): Convex {
  const kept: Facet[] = [];
  const rim: Triple[] = [];
  for (const facet of facets) {
    const points: Triple[] = [];
    for (const [index, from] of facet.points.entries()) {
      const to = facet.points[(index + 1) % facet.points.length] as Triple;
      const [a, b] = [dot(normal, from) - offset, dot(normal, to) - offset];
      if (a <= 1e-9) points.push(from);
      if (Math.abs(a) <= 1e-9) rim.push(from);
      if (Math.min(a, b) < -1e-9 && Math.max(a, b) > 1e-9) {
        const met = plus(from, less(to, from), a / (a - b));
        points.push(met);
        rim.push(met);
      }
    }
    if (points.length > 2 && points.some((p) => dot(normal, p) - offset < -1e-9)) {
      kept.push({ ...facet, points });
    }
  }
  return { facets: [...kept, { ...facetOf(around(rim, normal), -1), normal, offset }] };
}

/** Points of one plane in turning order about a normal. */
function around(points: readonly Triple[], normal: Triple): Triple[] {
  const middle = plus(
    [0, 0, 0],
    points.reduce((a, b) => plus(a, b)),
    1 / points.length,
  );
  const across = unit(less(points[0] as Triple, middle));
  const up = cross(normal, across);
  const angle = (p: Triple): number =>
    Math.atan2(dot(less(p, middle), up), dot(less(p, middle), across));
  return [...points].sort((a, b) => angle(a) - angle(b));
}
