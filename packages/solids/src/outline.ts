import { type Faceting, facetsOfArc } from './faceting.ts';
import { fault, size, within } from './problem.ts';

/** A convex outline, as seen from above; its lowest x and y are 0. */
export type Outline =
  | { readonly kind: 'disc'; readonly diameter: number }
  | { readonly kind: 'oval'; readonly length: number; readonly width: number }
  | {
      /** Between an oval (exponent 2) and a rectangle (a high exponent). */
      readonly kind: 'superellipse';
      readonly length: number;
      readonly width: number;
      /** 1.2 to 20. */
      readonly exponent: number;
    }
  | {
      /** A rectangle with rounded corners. */
      readonly kind: 'rounded';
      readonly length: number;
      readonly width: number;
      readonly radius: number;
    }
  | {
      /** All sides equal; one lies along the front. */
      readonly kind: 'polygon';
      /** 3 to 100. */
      readonly sides: number;
      /** Diameter of the circle around its corners, or of the one within its flats. */
      readonly across: number;
      readonly measured: 'corners' | 'flats';
    };

/** A place of an outline. */
export type Pair = readonly [x: number, y: number];

/** An outline as points, with what is known of it exactly. */
export interface Loop {
  /** Anticlockwise. */
  readonly points: readonly Pair[];
  /** For each side that begins at a point: which run of sides it belongs to. */
  readonly runs: readonly number[];
  /** For each run: whether it stands for a curve. */
  readonly curved: readonly boolean[];
  /** Runs that meet without a crease. */
  readonly flowing: readonly (readonly [number, number])[];
  /** Of the true outline, mm². */
  readonly area: number;
  /** Length of the true outline, mm; undefined where no formula tells it. */
  readonly around: number | undefined;
  /** Of its area. */
  readonly middle: Pair;
}

/** The points of an outline, on the true curve. */
export function loopOf(outline: Outline, faceting: Faceting): Loop {
  switch (outline.kind) {
    case 'disc':
      return discLoop(size('diameter', outline.diameter) / 2, faceting);
    case 'oval':
      return superLoop(halves(outline), 2, faceting);
    case 'superellipse':
      return superLoop(halves(outline), within('exponent', outline.exponent, 1.2, 20), faceting);
    case 'rounded':
      return roundedLoop(outline, faceting);
    case 'polygon':
      return polygonLoop(outline);
  }
}

const halves = ({ length, width }: { length: number; width: number }): Pair => [
  size('length', length) / 2,
  size('width', width) / 2,
];

/** A loop of one curve. */
const ring = (points: readonly Pair[], rest: Pick<Loop, 'area' | 'around' | 'middle'>): Loop => ({
  points,
  runs: points.map(() => 0),
  curved: [true],
  flowing: [],
  ...rest,
});

function discLoop(radius: number, faceting: Faceting): Loop {
  const quarter = facetsOfArc(radius, Math.PI / 2, faceting);
  const arc = Array.from({ length: quarter }, (_, index): Pair => {
    const turn = (Math.PI / 2) * (index / quarter);
    return [radius * Math.cos(turn), radius * Math.sin(turn)];
  });
  return ring(fourfold([...arc, [0, radius]], radius, radius), {
    area: Math.PI * radius ** 2,
    around: 2 * Math.PI * radius,
    middle: [radius, radius],
  });
}

/** A quarter from (half, 0) to (0, half) mirrored all around, so that outlines end exactly where they are said to. */
function fourfold(quarter: readonly Pair[], halfLong: number, halfWide: number): Pair[] {
  const first = quarter.slice(0, -1);
  const second = [...quarter].reverse().slice(0, -1);
  return [
    ...first.map(([x, y]): Pair => [halfLong + x, halfWide + y]),
    ...second.map(([x, y]): Pair => [halfLong - x, halfWide + y]),
    ...first.map(([x, y]): Pair => [halfLong - x, halfWide - y]),
    ...second.map(([x, y]): Pair => [halfLong + x, halfWide - y]),
  ];
}

/** |x/a|^n + |y/b|^n = 1. */
function superLoop([a, b]: Pair, exponent: number, faceting: Faceting): Loop {
  const share = 1 / exponent;
  return ring(fourfold(superQuarter(a, b, exponent, faceting), a, b), {
    area: (4 * a * b * gamma(1 + share) ** 2) / gamma(1 + 2 * share),
    around: exponent === 2 ? ovalAround(a, b) : undefined,
    middle: [a, b],
  });
}

const FINE = 600;

/**
 * A chord of length s lies about κs²/8 from a curve of curvature κ. With as much of ∫√κ ds between any two
 * points, all chords lie about equally far from it, so that few are needed.
 */
function superQuarter(a: number, b: number, exponent: number, faceting: Faceting): Pair[] {
  const fine = finePoints(a, b, exponent);
  const weights = [0];
  let total = 0;
  for (let index = 1; index < fine.length; index++) {
    const before = headingOf(fine, Math.max(1, index - 1));
    const after = headingOf(fine, Math.min(fine.length - 1, index + 1));
    const turn = Math.abs(after - before) / 2;
    total += Math.sqrt(turn * distance(fine[index - 1]!, fine[index]!));
    weights.push(total);
  }
  const most = faceting.most / 4;
  let count = Math.ceil(total / Math.sqrt(8 * faceting.tolerance));
  for (;;) {
    count = Math.max(LEAST_IN_OVAL, Math.min(count, most));
    const points = spaced(fine, weights, count, (from, to, share) =>
      onCurve(from, to, share, [a, b], exponent),
    );
    // Where the curvature changes fast a chord lies further away than that.
    const away = awayFrom(points, fine);
    if (away <= faceting.tolerance || count === most) return points;
    count = Math.max(count + 1, Math.floor(count * Math.sqrt(away / faceting.tolerance)));
  }
}

/** Points with the same share of the weights between them. */
function spaced(
  fine: readonly Pair[],
  weights: readonly number[],
  count: number,
  between: (from: Pair, to: Pair, share: number) => Pair,
): Pair[] {
  const total = weights.at(-1)!;
  const points: Pair[] = [fine[0]!];
  let at = 0;
  for (let step = 1; step < count; step++) {
    const weight = (total * step) / count;
    while (weights[at + 1]! <= weight) at++;
    const share = (weight - weights[at]!) / (weights[at + 1]! - weights[at]!);
    points.push(between(fine[at]!, fine[at + 1]!, share));
  }
  return [...points, fine.at(-1)!];
}

/** How far the furthest of close points of a curve lies from the chord it belongs to. */
function awayFrom(points: readonly Pair[], fine: readonly Pair[]): number {
  let most = 0;
  let at = 1;
  for (const [x, y] of fine) {
    while (at < points.length - 1 && y * points[at]![0] > x * points[at]![1]) at++;
    const [[u, v], [p, q]] = [points[at - 1]!, points[at]!];
    const away = ((x - u) * (q - v) - (y - v) * (p - u)) / Math.hypot(p - u, q - v);
    if (away > most) most = away;
  }
  return most;
}

const LEAST_IN_OVAL = 3;

/** Points close together, both where the curve is nearly straight and where it turns. */
function finePoints(a: number, b: number, exponent: number): Pair[] {
  const points: Pair[] = [];
  for (let index = 1; index < FINE; index++) {
    const turn = (Math.PI / 2) * (index / FINE);
    const [x, y] = [Math.cos(turn), Math.sin(turn)];
    const scale = (x ** exponent + y ** exponent) ** (-1 / exponent);
    points.push([x * scale, y * scale], [x ** (2 / exponent), y ** (2 / exponent)]);
  }
  points.sort(([x, y], [u, v]) => y * u - v * x);
  const apart = points.filter(
    (point, index) => index === 0 || distance(point, points[index - 1]!) > 1e-9,
  );
  return [[a, 0], ...apart.map(([x, y]): Pair => [a * x, b * y]), [0, b]];
}

const distance = ([x, y]: Pair, [u, v]: Pair): number => Math.hypot(u - x, v - y);

const headingOf = (points: readonly Pair[], index: number): number => {
  const [[x, y], [u, v]] = [points[index - 1]!, points[index]!];
  return Math.atan2(v - y, u - x);
};

/** The point of the curve in the direction of a point between two others. */
function onCurve(from: Pair, to: Pair, share: number, [a, b]: Pair, exponent: number): Pair {
  const x = (from[0] + (to[0] - from[0]) * share) / a;
  const y = (from[1] + (to[1] - from[1]) * share) / b;
  const scale = (x ** exponent + y ** exponent) ** (-1 / exponent);
  return [a * x * scale, b * y * scale];
}

function roundedLoop(
  { length, width, radius }: Extract<Outline, { kind: 'rounded' }>,
  faceting: Faceting,
): Loop {
  const [a, b] = halves({ length, width });
  const r = size('radius', radius);
  const most = Math.min(a, b);
  if (r > most) {
    throw fault(
      'radius',
    )`The radius is ${r}, more than half of the side of ${2 * most}; make it ${most} or less.`;
  }
  const count = facetsOfArc(r, Math.PI / 2, faceting);
  const centres: readonly Pair[] = [
    [2 * a - r, r],
    [2 * a - r, 2 * b - r],
    [r, 2 * b - r],
    [r, r],
  ];
  const points: Pair[] = [];
  const runs: number[] = [];
  centres.forEach(([x, y], corner) => {
    for (let step = 0; step <= count; step++) {
      const [cos, sin] = aroundCorner(corner, step / count);
      points.push([x + r * cos, y + r * sin]);
      // Runs are front, corner, end, corner, back, … : arcs are odd.
      runs.push(step < count ? 2 * corner + 1 : (2 * corner + 2) % 8);
    }
  });
  const kept = points.map(
    (point, index) => distance(point, points[(index + 1) % points.length]!) > 1e-9,
  );
  return {
    points: points.filter((_, index) => kept[index]),
    runs: runs.filter((_, index) => kept[index]),
    curved: Array.from({ length: 8 }, (_, run) => run % 2 === 1),
    flowing: Array.from({ length: 8 }, (_, run) => [
      [run, (run + 1) % 8] as const,
      // Where a flat is left out, its two corners meet.
      [run, (run + 2) % 8] as const,
    ]).flatMap(([next, afterNext], run) => (run % 2 === 1 ? [next!, afterNext!] : [next!])),
    area: 4 * a * b - (4 - Math.PI) * r ** 2,
    around: 4 * (a + b) - (8 - 2 * Math.PI) * r,
    middle: [a, b],
  };
}

/** Exact where an arc meets a flat. */
function aroundCorner(corner: number, share: number): Pair {
  const quarters: readonly Pair[] = [
    [0, -1],
    [1, 0],
    [0, 1],
    [-1, 0],
  ];
  if (share === 0) return quarters[corner]!;
  if (share === 1) return quarters[(corner + 1) % 4]!;
  const turn = (Math.PI / 2) * (corner - 1 + share);
  return [Math.cos(turn), Math.sin(turn)];
}

function polygonLoop({ sides, across, measured }: Extract<Outline, { kind: 'polygon' }>): Loop {
  if (!Number.isInteger(sides)) {
    throw fault('range')`The number of sides is ${`${sides}`}; give a whole number, 3 to 100.`;
  }
  within('number of sides', sides, 3, 100);
  const half = size('size across', across) / 2;
  const step = Math.PI / sides;
  const radius = measured === 'corners' ? half : half / Math.cos(step);
  const corners = Array.from({ length: sides }, (_, index): Pair => {
    const turn = -Math.PI / 2 - step + 2 * step * index;
    return [radius * Math.cos(turn), radius * Math.sin(turn)];
  });
  const left = Math.min(...corners.map(([x]) => x));
  const front = Math.min(...corners.map(([, y]) => y));
  return {
    points: corners.map(([x, y]): Pair => [x - left, y - front]),
    runs: corners.map((_, index) => index),
    curved: corners.map(() => false),
    flowing: [],
    area: (sides / 2) * radius ** 2 * Math.sin(2 * step),
    around: 2 * sides * radius * Math.sin(step),
    middle: [-left, -front],
  };
}

/**
 * Length of an oval's edge from its half sizes.
 * Source: the arithmetic-geometric mean for the complete elliptic integrals.
 */
function ovalAround(a: number, b: number): number {
  let [x, y] = [Math.max(a, b), Math.min(a, b)];
  const long = x;
  let sum = (x ** 2 - y ** 2) / 2;
  for (let weight = 1; x - y > 1e-15 * long; weight *= 2) {
    const gap = (x - y) / 2;
    [x, y] = [(x + y) / 2, Math.sqrt(x * y)];
    sum += weight * gap ** 2;
  }
  return (2 * Math.PI * (long ** 2 - sum)) / x;
}

/** The gamma function, above 0. Source: Lanczos's approximation with g = 7 and 9 terms, good to 15 digits. */
function gamma(value: number): number {
  const terms = [
    676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
    12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
  ];
  const z = value - 1;
  const base = z + 7.5;
  const series = terms.reduce(
    (sum, term, index) => sum + term / (z + index + 1),
    0.99999999999980993,
  );
  return Math.sqrt(2 * Math.PI) * base ** (z + 0.5) * Math.exp(-base) * series;
}
