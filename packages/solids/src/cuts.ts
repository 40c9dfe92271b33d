import type { Face } from './faces.ts';
import type { Triple } from './types.ts';

/**
 * An edge of a piece: the two faces that meet in it, or a face with all that it meets around it.
 */
export type EdgeName = readonly [face: Face, other: Face | 'around'];

/** What leaves a convex blank convex. */
export type ConvexCut =
  | {
      readonly kind: 'taper';
      /** Which faces lean: one, two or four of front, back, bottom and top. Opposite ones share what goes. */
      readonly faces: readonly Face[];
      /** The size left at the narrow end, mm; of width and of thickness where they differ. */
      readonly to: number | readonly [width: number, thickness: number];
      /** Where along the length it begins, mm from the other end. */
      readonly from: number;
      /** The narrow end. */
      readonly towards: 'start' | 'end';
    }
  | {
      /** An end sawn at an angle; the length stays what it is at the longest point. */
      readonly kind: 'end';
      readonly end: 'start' | 'end';
      /**
       * Degrees away from square across the width, as the mitre gauge is set: above 0 the front is longer.
       */
      readonly mitre?: number;
      /** Degrees the blade leans: above 0 the bottom is longer. */
      readonly bevel?: number;
    }
  | {
      readonly kind: 'chamfer';
      readonly edge: EdgeName;
      /** How much of the first face it takes, mm. */
      readonly width: number;
      /** How much of the other face it takes, mm; the same when left out. */
      readonly height?: number;
    }
  | { readonly kind: 'roundover'; readonly edge: EdgeName; readonly radius: number };

/** Where a cut enters: a face of the box around the blank, and places on it from its low corner. */
interface Entered {
  /** The face it is cut into. */
  readonly face: Face;
}

/** A cut that runs along or across a face and may stop short, mm from the low end of the way it runs. */
interface Running {
  readonly from?: number;
  readonly to?: number;
}

/** A cut sunk into a face around a point of it. */
interface Sunk extends Entered {
  /** Its middle on the face: along the first and the second of the axes that the face has (of x, y, z). */
  readonly at: readonly [number, number];
  /** Square to the face, or along the cut where that leans, mm; through the piece when left out. */
  readonly depth?: number;
  /** Degrees its length is turned on the face, from the first axis to the second. */
  readonly turn?: number;
}

/** A cut that goes into the wood any way there is, in the piece's own frame. */
interface Slanted {
  /** The middle of where it begins: in its mouth, or outside where that has to be open all over. */
  readonly from: Triple;
  /** The way into the wood, of length 1. */
  readonly into: Triple;
  /** How far it goes that way, mm. */
  readonly depth: number;
}

/** What is taken away from a piece by tools of a convex form. */
export type ToolCut =
  | (Entered &
      Running & {
        /** Along the first axis of the face: along the length of front, back, bottom and top. */
        readonly kind: 'groove';
        /** From the low edge of the face to its near side, mm. */
        readonly at: number;
        readonly width: number;
        readonly depth: number;
      })
  | (Entered &
      Running & {
        /** Along the second axis of the face: across the width of bottom and top. */
        readonly kind: 'dado';
        /** From the low end of the face to its near side, mm. */
        readonly at: number;
        readonly width: number;
        readonly depth: number;
      })
  | (Running & {
      readonly kind: 'rabbet';
      /** The face it is seen on, and the face it runs along. */
      readonly edge: readonly [Face, Face];
      /** Of the first face, from the edge, mm. */
      readonly width: number;
      /** Into the first face, mm. */
      readonly depth: number;
    })
  | (Running & {
      /** A hollow quarter round along an edge. */
      readonly kind: 'cove';
      readonly edge: readonly [Face, Face];
      readonly radius: number;
    })
  | (Entered & {
      /** An arched edge: a part of a circle taken out along the first axis of the face, and right across it. */
      readonly kind: 'arch';
      /** How far it rises, mm. */
      readonly rise: number;
      /** How long it is at the face, mm; the whole face when left out. */
      readonly chord?: number;
      /** Its middle, mm from the low end; the middle of the face when left out. */
      readonly at?: number;
    })
  | (Sunk & {
      readonly kind: 'mortise';
      readonly length: number;
      readonly width: number;
      /** With round ends, as a router or a slot mortiser leaves it. */
      readonly round?: boolean;
    })
  | (Sunk & {
      readonly kind: 'hole';
      readonly diameter: number;
      /** How far a flat facet may lie from its wall, mm; as all curves of the piece when left out. */
      readonly tolerance?: number;
      /** Degrees from square to the face, towards `turn`. */
      readonly lean?: number;
    })
  | (Sunk & {
      /** A hole drawn out: round ends, its length over all. */
      readonly kind: 'slot';
      readonly length: number;
      readonly width: number;
    })
  | (Sunk & {
      /** A mortise that leans along its length. */
      readonly kind: 'pocket';
      readonly length: number;
      readonly width: number;
      /** Degrees from square to the face, towards `turn`. */
      readonly lean: number;
    })
  | (Entered &
      Running & {
        /** A socket for a dovetail, along or across a face. */
        readonly kind: 'dovetail';
        readonly run: 'along' | 'across';
        /** The middle of its mouth, mm from the low edge. */
        readonly at: number;
        /** At the face, mm. */
        readonly width: number;
        readonly depth: number;
        /** Degrees each side leans: above 0 wider inside, below 0 wider at the face. */
        readonly angle: number;
      })
  | {
      /** A tenon: shoulders all around an end. */
      readonly kind: 'tenon';
      readonly end: 'start' | 'end';
      readonly length: number;
      /** Across the piece, mm. */
      readonly width: number;
      /** Through the piece, mm. */
      readonly thickness: number;
      /** Where it begins in width and thickness, mm; in the middle when left out. */
      readonly at?: readonly [number, number];
      /** The plane its shoulders lie in, looking at the tenon; square and as far in as it is long when left out. */
      readonly shoulder?: { readonly normal: Triple; readonly offset: number };
    }
  | (Slanted & {
      /** A mortise at any angle. */
      readonly kind: 'angled mortise';
      /** The way its length runs, of length 1 and square to the way into the wood. */
      readonly along: Triple;
      readonly length: number;
      readonly width: number;
    })
  | (Slanted & {
      /** A round hole at any angle. */
      readonly kind: 'angled hole';
      readonly diameter: number;
      /** How far a flat facet may lie from its wall, mm; as all curves of the piece when left out. */
      readonly tolerance?: number;
    });

/** Anything that is cut from a blank. The order makes no difference but to edges, which are those there are then. */
export type Cut = ConvexCut | ToolCut;
