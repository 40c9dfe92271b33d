import { boxSolid, type Solid } from '@kerfbook/solids';
import type { Piece, Scene } from '../scene.ts';
import { solidOf as cornersOf } from '../solid.ts';
import { type PreparedSolids, prepareSolids } from './prepared.ts';

/** Whether any piece is more than an upright box: only then are views made of solids. */
export const hasSolids = ({ pieces }: Scene): boolean =>
  pieces.some(({ solid }) => solid !== undefined);

const boxes = new WeakMap<Piece, Solid>();

/** A piece as a solid, be it just a box. */
export function solidOf(piece: Piece): Solid {
  if (piece.solid !== undefined) return piece.solid;
  let solid = boxes.get(piece);
  if (solid === undefined) {
    const { low, high } = cornersOf(piece);
    solid = boxSolid(low, high);
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
