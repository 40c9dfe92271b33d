/**
 * Furniture for the benchmarks of shapes, in mm: parts with joints as convex cells, built here from
 * their corners so that nothing but the view of them is measured.
 *
 * @typedef {import('@kerfbook/solids').Triple} Triple
 * @typedef {import('@kerfbook/solids').Facet} Facet
 * @typedef {import('@kerfbook/solids').Edge} Edge
 * @typedef {import('@kerfbook/solids').Solid} Solid
 * @typedef {(point: Triple) => Triple} Place
 */

/** @type {(a: Triple, b: Triple) => number} */
const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
/** @type {(a: Triple, b: Triple) => Triple} */
const less = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
/** @type {(a: Triple, b: Triple) => Triple} */
const cross = (a, b) => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** @type {(points: readonly Triple[], surface: number, curved?: boolean) => Facet} */
function facetOf(points, surface, curved = false) {
  const [a, b, c] = /** @type {[Triple, Triple, Triple]} */ (/** @type {unknown} */ (points));
  const across = cross(less(b, a), less(c, a));
  const size = Math.hypot(...across);
  /** @type {Triple} */
  const normal = [across[0] / size, across[1] / size, across[2] / size];
  return { points, normal, offset: dot(normal, a), surface, curved };
}

/** @type {(facets: readonly Facet[]) => Edge[]} */
function edgesOf(facets) {
  /** @type {Map<string, Facet>} */
  const open = new Map();
  /** @type {Edge[]} */
  const edges = [];
  for (const facet of facets) {
    facet.points.forEach((from, index) => {
      const to = /** @type {Triple} */ (facet.points[(index + 1) % facet.points.length]);
      const other = open.get(`${to} ${from}`);
      if (other === undefined) open.set(`${from} ${to}`, facet);
      else {
        const smooth = facet.curved && facet.surface === other.surface;
        edges.push({ from, to, normals: [facet.normal, other.normal], smooth });
      }
    });
  }
  return edges;
}

/** @type {(bottom: Triple[], top: Triple[], place: Place, curved?: boolean) => Solid} */
function between(bottom, top, place, curved = false) {
  const [low, high] = [bottom.map(place), top.map(place)];
  const sides = low.map((corner, index) => {
    const next = (index + 1) % low.length;
    const points = /** @type {Triple[]} */ ([corner, low[next], high[next], high[index]]);
    return facetOf(points, curved ? 2 : 2 + index, curved);
  });
  const facets = [facetOf([...low].reverse(), 0), facetOf(high, 1), ...sides];
  return { cells: [{ facets }], facets, edges: edgesOf(facets) };
}

/** @type {(x: number, y: number, dx: number, dy: number, z: number) => Triple[]} */
const rectangle = (x, y, dx, dy, z) => [
  [x, y, z],
  [x + dx, y, z],
  [x + dx, y + dy, z],
  [x, y + dy, z],
];

/** @type {(x: number, y: number, z: number, dx: number, dy: number, dz: number, place?: Place) => Solid} */
export const box = (x, y, z, dx, dy, dz, place = (point) => point) =>
  between(rectangle(x, y, dx, dy, z), rectangle(x, y, dx, dy, z + dz), place);

/** @type {(sides: number, radius: number, height: number, foot: number, place: Place) => Solid} */
function round(sides, radius, height, foot, place) {
  /** @type {(r: number, z: number) => Triple[]} */
  const ring = (r, z) =>
    Array.from({ length: sides }, (_, i) => {
      const angle = (2 * Math.PI * i) / sides;
      return [r * Math.cos(angle), r * Math.sin(angle), z];
    });
  return between(ring(foot, 0), ring(radius, height), place, true);
}

const NEAR_SIDE = 2;

/**
 * A leg: square where it takes a rail, with a mortise in its near side, tapered below that.
 * @type {(width: number, foot: number, height: number, place: Place) => Solid}
 */
function mortisedLeg(width, foot, height, place) {
  const [head, wide, deep, high] = [140, 10, 25, 90];
  const start = height - head;
  const left = (width - wide) / 2;
  const up = start + (head - high) / 2;
  const block = box(0, 0, start, width, width, head, place);
  const inset = (width - foot) / 2;
  const below = between(
    rectangle(inset, inset, foot, foot, 0),
    rectangle(0, 0, width, width, start),
    place,
  );
  const around = [
    box(0, 0, start, left, deep, head, place),
    box(left + wide, 0, start, left, deep, head, place),
    box(left, 0, start, wide, deep, up - start, place),
    box(left, 0, up + high, wide, deep, start + head - up - high, place),
  ];
  const hole = box(left, 0, up, wide, deep, high, place);
  const near = /** @type {(solid: Solid) => Facet} */ ((solid) => solid.facets[NEAR_SIDE]);
  const walls = hole.facets
    .filter((facet) => facet !== near(hole))
    .map(({ points }, index) => facetOf([...points].reverse(), 20 + index));
  const outside = [
    ...block.facets.filter((facet) => facet !== near(block)).slice(1),
    ...below.facets
      .filter((_, index) => index !== 1)
      .map((f) => ({ ...f, surface: f.surface + 10 })),
  ];
  const inside = edgesOf(hole.facets).map((edge) => {
    const [a, b] = edge.normals.map((normal) =>
      normal === near(hole).normal
        ? normal
        : /** @type {Triple} */ ([-normal[0], -normal[1], -normal[2]]),
    );
    return /** @type {Edge} */ ({ ...edge, normals: [a, b] });
  });
  // Square and tapered part meet in edges that both bodies have.
  const edges = edgesOf([...outside, near(block)]);
  return {
    cells: [box(0, deep, start, width, width - deep, head, place), below, ...around].flatMap(
      ({ cells }) => cells,
    ),
    facets: [...outside, ...around.map(near), ...walls],
    edges: [...edges, ...inside],
  };
}

const FAR_SIDE = 4;
/** Into a leg. */
const TENON = { thick: 10, long: 25, wide: 90 };

/**
 * A rail along y with a tenon at its far end.
 * @type {(thick: number, wide: number, length: number, place: Place) => Solid}
 */
function tenonedRail(thick, wide, length, place) {
  const [x, z] = [(thick - TENON.thick) / 2, (wide - TENON.wide) / 2];
  const [right, top] = [x + TENON.thick, z + TENON.wide];
  const body = box(0, 0, 0, thick, length, wide, place);
  const tenon = box(x, length, z, TENON.thick, TENON.long, TENON.wide, place);
  const far = /** @type {Facet} */ (body.facets[FAR_SIDE]);
  const shoulder = [
    [0, 0, thick, z],
    [0, top, thick, wide],
    [0, z, x, top],
    [right, z, thick, top],
  ].map(([from = 0, low = 0, to = 0, high = 0]) => ({
    ...far,
    points: /** @type {Triple[]} */ ([
      [to, length, low],
      [from, length, low],
      [from, length, high],
      [to, length, high],
    ]).map(place),
  }));
  const root = /** @type {Facet} */ (tenon.facets[NEAR_SIDE]);
  const edges = tenon.edges.map((edge) => {
    const [a, b] = edge.normals.map((n) => (n === root.normal ? far.normal : n));
    return /** @type {Edge} */ ({ ...edge, normals: [a, b] });
  });
  return {
    cells: [...body.cells, ...tenon.cells],
    facets: [
      ...body.facets.filter((facet) => facet !== far),
      ...shoulder,
      ...tenon.facets
        .filter((facet) => facet !== root)
        .map((facet) => ({ ...facet, surface: facet.surface + 10 })),
    ],
    edges: [...body.edges, ...edges],
  };
}

/** @type {(degrees: number, lean: number, by: Triple) => Place} */
const leaning = (degrees, lean, by) => {
  const [a, b] = [(degrees * Math.PI) / 180, (lean * Math.PI) / 180];
  return ([x, y, z]) => {
    const [x1, z1] = [x * Math.cos(b) + z * Math.sin(b), z * Math.cos(b) - x * Math.sin(b)];
    return [
      by[0] + x1 * Math.cos(a) - y * Math.sin(a),
      by[1] + x1 * Math.sin(a) + y * Math.cos(a),
      by[2] + z1,
    ];
  };
};

/**
 * Frames in rows, twenty parts and ten joints each: seven legs with a mortise and a tapered foot,
 * seven rails with a tenon in one of them, and three tops on round splayed legs that run into them.
 * @param {number} parts a multiple of twenty
 * @returns {{ solids: Solid[], joints: number }}
 */
export function mixedParts(parts) {
  const solids = Array.from({ length: parts / 20 }, (_, i) => {
    const [x, y] = [(i % 5) * 900, Math.floor(i / 5) * 900];
    const joined = Array.from({ length: 7 }, (__, k) => [
      mortisedLeg(50, 28, 720, leaning(0, 0, [x + k * 90, y + 500, 0])),
      tenonedRail(22, 118, 450, leaning(0, 0, [x + k * 90 + 14, y + 50, 591])),
    ]).flat();
    const stools = Array.from({ length: 3 }, (__, k) => {
      const middle = x + 100 + k * 200;
      return [
        round(32, 22, 460, 14, leaning(40 * k, 12, [middle - 80, y + 200, 0])),
        round(48, 90, 30, 80, leaning(0, 0, [middle, y + 200, 440])),
      ];
    }).flat();
    return [...joined, ...stools];
  }).flat();
  return { solids, joints: (parts / 20) * 10 };
}
