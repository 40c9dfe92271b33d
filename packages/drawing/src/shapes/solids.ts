/** A point or a direction: x, y and z, in mm where it is a place. */
export type Triple = readonly [number, number, number];

/** A flat convex polygon of a surface. */
export interface Facet {
  /** Its corners, anticlockwise as seen from outside. */
  readonly points: readonly Triple[];
  /** Away from the wood, of length 1. */
  readonly normal: Triple;
  /** normal · point, the same for every point of its plane. */
  readonly offset: number;
  /** Which surface it belongs to: facets that stand for one curved surface, or lie in one face, share it. */
  readonly surface: number;
  /** Whether its surface is curved, and the facet a chord of it. */
  readonly curved: boolean;
}

/** A convex body. */
export interface Convex {
  /** What closes it. */
  readonly facets: readonly Facet[];
}

/** Where two facets of the outside meet. */
export interface Edge {
  /** One end. */
  readonly from: Triple;
  /** The other end. */
  readonly to: Triple;
  /** Of the two facets that meet in it. */
  readonly normals: readonly [Triple, Triple];
  /** Between two facets of one curved surface: drawn only where it is an outline. */
  readonly smooth: boolean;
}

/** A piece of wood as it is shaped. */
export interface Solid {
  /** Convex bodies that fill it and share no room. */
  readonly cells: readonly Convex[];
  /** Its outside, without the walls between the cells. */
  readonly facets: readonly Facet[];
  /** The edges of its outside; none between facets that lie in one plane. */
  readonly edges: readonly Edge[];
}
