import { boxSolid, type Solid, type Triple } from '@kerfbook/solids';
import { MOST_PIECES, type Piece, type Scene } from '../scene.ts';
import { solidOf as cornersOf } from '../solid.ts';
import { type PreparedSolids, prepareSolids } from './prepared.ts';

/** Whether any piece is more than an upright box: only then are views made of solids. */
export const hasSolids = ({ pieces }: Scene): boolean =>
  pieces.some(({ solid }) => solid !== undefined);

const boxes = new WeakMap<Piece, Solid>();
/** Those of the last scenes by their corners: each edit makes all pieces anew, and views keep what they know with solids. */
const standing = new Map<string, Solid>();
/** The whole, the same moved apart, and as many of each edit's own. */
const MOST_BOXES = 4 * MOST_PIECES;

function boxBetween(low: Triple, high: Triple): Solid {
  const key = `${low} ${high}`;
  const before = standing.get(key);
  if (before !== undefined) return before;
  if (standing.size >= MOST_BOXES) standing.clear();
  const solid = boxSolid(low, high);
  standing.set(key, solid);
  return solid;
}

/** A piece as a solid, be it just a box; the same object for an equal box in the same place. */
export function solidOf(piece: Piece): Solid {
  if (piece.solid !== undefined) return piece.solid;
  let solid = boxes.get(piece);
  if (solid === undefined) {
    const { low, high } = cornersOf(piece);
    solid = boxBetween(low, high);
    boxes.set(piece, solid);
  }
  return solid;
}

const ready = new WeakMap<readonly Piece[], PreparedSolids>();

/** The solids of a scene, made ready once for all views of it. */
export function solidsOf({ pieces }: Scene): PreparedSolids {
  let prepared = ready.get(pieces);
  if (prepared === undefined) {
    prepared = prepareSolids(pieces.map(solidOf));
    ready.set(pieces, prepared);
  }
  return prepared;
}
