/** The heads under which a parts table says how a part is shaped. */
export const SHAPE_COLUMNS = [
  'shape',
  'corner',
  'taper',
  'taper to',
  'taper from',
  'arch',
  'ends',
  'edge',
  'edge size',
  'splay along',
  'splay across',
] as const;

/** One of them. */
export type ShapeColumn = (typeof SHAPE_COLUMNS)[number];

/** A side of a piece as it stands in the room, seen by who stands before the furniture. */
export type Side = 'left' | 'right' | 'front' | 'back' | 'bottom' | 'top';

/** The sides that words can name. */
export const SIDES: readonly Side[] = ['left', 'right', 'front', 'back', 'bottom', 'top'];

/** A side, or one by where the middle of the furniture is. */
export type SideOrWay = Side | 'inside' | 'outside';

/** What a piece is before anything is cut from it, other than a box. */
export type OutlineForm =
  | { readonly kind: 'round' }
  | { readonly kind: 'oval' }
  | { readonly kind: 'superellipse'; readonly exponent: number }
  | { readonly kind: 'rounded'; readonly radius: number }
  | { readonly kind: 'rod' };

/** Faces that lean towards the narrow end. */
export type TaperFaces = 'inside' | 'outside' | 'four' | readonly Side[];

/** An end that is not sawn square, said of the piece as if it did not lean. */
export interface EndCut {
  /** Across the width, as the miter gauge is set, or through the thickness, as the blade leans. */
  readonly kind: 'mitre' | 'bevel';
  /** Degrees away from square. */
  readonly angle: number;
  /** At the end on this side; at both where left out. */
  readonly at?: Side;
  /** The side that stays as long as it was; the lower or the outer one where left out. */
  readonly longer?: SideOrWay;
}

/** How the ends are cut. */
export interface EndsForm {
  /** Of a piece that leans: cut level with the floor (where left out), or square to the piece. */
  readonly lie?: 'level' | 'square';
  /** Each for one end or both. */
  readonly cuts: readonly EndCut[];
}

/** Profiles that an edge can have. */
export type Profile = 'roundover' | 'chamfer' | 'cove';

/** How edges are shaped. */
export interface EdgeForm {
  /** What is run along them. */
  readonly profile: Profile;
  /** Around these sides; all around where there is none. */
  readonly at: readonly Side[];
  /** Radius, or how much of both faces it takes. */
  readonly size: number;
}

/** How a part is shaped: plain data, all lengths in the unit in which they were read. */
export interface PartForm {
  /** Left out where it is cut from a box. */
  readonly outline?: OutlineForm;
  /** Which faces lean, to what size, and from where. */
  readonly taper?: { readonly faces: TaperFaces; readonly to: number; readonly from: number };
  /** How far an arch rises from the lower edge. */
  readonly arch?: number;
  /** Left out where both are cut as they usually are. */
  readonly ends?: EndsForm;
  /** Left out where all edges are square. */
  readonly edge?: EdgeForm;
}

/** Degrees that a piece leans outwards on its way down, as seen from the front and from the end. */
export interface Lean {
  /** As seen from the front; below 0 inwards. */
  readonly along: number;
  /** As seen from the end; below 0 inwards. */
  readonly across: number;
}

/** What a row says under the heads of its shape, words or a number; each left out where it says nothing. */
export type ShapeCells = {
  readonly [column in ShapeColumn]?: column extends 'shape' | 'taper' | 'ends' | 'edge'
    ? string
    : number;
};

/** Something about a shape that cannot be as it is said. */
export interface ShapeTrouble {
  /** Where to look. */
  readonly column: ShapeColumn;
  /** One sentence: what was wrong, what was expected, what to do. */
  readonly says: string;
}
