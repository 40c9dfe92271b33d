import type { Convex, Edge, Facet, Solid, Triple } from './types.ts';
import { cross, degrees, dot, opposite, plus, times, turned, unit } from './vectors.ts';

/** Where a piece stands and how it is turned, without changing its size. */
export interface Placement {
  /** Where its x, y and z axes point, each of length 1 and square to the others. */
  readonly axes: readonly [Triple, Triple, Triple];
  /** Where its corner 0, 0, 0 comes to, mm. */
  readonly shift: Triple;
}

/** As it was made. */
export const UNMOVED: Placement = {
  axes: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  shift: [0, 0, 0],
};

/** Moved without being turned, mm. */
export const movedBy = (shift: Triple): Placement => ({ axes: UNMOVED.axes, shift });

/**
 * Turned about an axis through 0, 0, 0, anticlockwise for whoever looks against the axis.
 * @param axis any direction
 * @param angle degrees; quarter turns are exact
 */
export function turnedAbout(axis: Triple, angle: number): Placement {
  const [sine, cosine] = turned(angle);
  const way = unit(axis);
  const about = (point: Triple): Triple =>
    plus(
      plus(times(point, cosine), times(cross(way, point), sine)),
      times(way, dot(way, point) * (1 - cosine)),
    );
  const [x, y, z] = UNMOVED.axes;
  return { axes: [about(x), about(y), about(z)], shift: [0, 0, 0] };
}

/** Mirrored in the plane through 0, 0, 0 that is square to an axis: 0 for x, 1 for y, 2 for z. */
export function mirroredIn(axis: 0 | 1 | 2): Placement {
  const [x, y, z] = UNMOVED.axes.map((one, index) => (index === axis ? times(one, -1) : one)) as [
    Triple,
    Triple,
    Triple,
  ];
  return { axes: [x, y, z], shift: [0, 0, 0] };
}

/** On end: its start on the floor, its end up, its front to the front. */
export const UPRIGHT: Placement = {
  axes: [
    [0, 0, 1],
    [0, 1, 0],
    [-1, 0, 0],
  ],
  shift: [0, 0, 0],
};

/**
 * Leaning from upright by two angles, as drawings show them from the front and from the side: tipped straight
 * over along the line of the lean, so that it does not twist.
 * @param front degrees as seen from the front, above 0 towards higher x as it goes up
 * @param side degrees as seen from the side, above 0 towards higher y as it goes up
 */
export function leaningBy(front: number, side: number): Placement {
  const [sinF, cosF] = turned(front);
  const [sinS, cosS] = turned(side);
  const [x, y] = [sinF / cosF, sinS / cosS];
  const lean = Math.hypot(x, y);
  return lean === 0 ? UNMOVED : turnedAbout([0 - y, x, 0], degrees(Math.atan(lean)));
}

/** First the one, then the other. */
export function followedBy(first: Placement, next: Placement): Placement {
  const [x, y, z] = first.axes;
  return {
    axes: [turnedBy(next, x), turnedBy(next, y), turnedBy(next, z)],
    shift: plus(turnedBy(next, first.shift), next.shift),
  };
}

/** A direction as a placement turns it. */
export const turnedBy = ({ axes: [x, y, z] }: Placement, way: Triple): Triple =>
  plus(plus(times(x, way[0]), times(y, way[1])), times(z, way[2]));

/** A point as a placement moves it. */
export const movedTo = (placement: Placement, point: Triple): Triple =>
  plus(turnedBy(placement, point), placement.shift);

/** A direction of the room as the piece has it: the inverse of {@link turnedBy}. */
export const turnedBack = ({ axes: [x, y, z] }: Placement, way: Triple): Triple => [
  dot(x, way),
  dot(y, way),
  dot(z, way),
];

/** The way back: what it is moved by comes to where it was. */
export function undone(placement: Placement): Placement {
  const [x, y, z] = UNMOVED.axes;
  return {
    axes: [turnedBack(placement, x), turnedBack(placement, y), turnedBack(placement, z)],
    shift: opposite(turnedBack(placement, placement.shift)),
  };
}

/** A piece where it stands. */
export function placed(solid: Solid, placement: Placement): Solid {
  const mover = new Mover(placement);
  return {
    cells: solid.cells.map(
      (cell): Convex => ({ facets: cell.facets.map((facet) => mover.facet(facet)) }),
    ),
    facets: solid.facets.map((facet) => mover.facet(facet)),
    edges: solid.edges.map((edge) => mover.edge(edge)),
  };
}

/** Moves each point once, and each facet once: a piece without tools has its cell's facets as its own. */
class Mover {
  readonly #placement: Placement;
  readonly #isMirrored: boolean;
  readonly #points = new Map<Triple, Triple>();
  readonly #facets = new Map<Facet, Facet>();

  constructor(placement: Placement) {
    const [x, y, z] = placement.axes;
    this.#placement = placement;
    this.#isMirrored = dot(cross(x, y), z) < 0;
  }

  #point(point: Triple): Triple {
    const before = this.#points.get(point);
    if (before !== undefined) return before;
    const moved = movedTo(this.#placement, point);
    this.#points.set(point, moved);
    return moved;
  }

  facet(facet: Facet): Facet {
    const before = this.#facets.get(facet);
    if (before !== undefined) return before;
    const points = facet.points.map((point) => this.#point(point));
    const normal = turnedBy(this.#placement, facet.normal);
    const moved = {
      ...facet,
      // A mirror turns clockwise into anticlockwise.
      points: this.#isMirrored ? points.reverse() : points,
      normal,
      offset: facet.offset + dot(normal, this.#placement.shift),
    };
    this.#facets.set(facet, moved);
    return moved;
  }

  edge({ from, to, normals: [one, other], smooth }: Edge): Edge {
    return {
      from: this.#point(from),
      to: this.#point(to),
      normals: [turnedBy(this.#placement, one), turnedBy(this.#placement, other)],
      smooth,
    };
  }
}
