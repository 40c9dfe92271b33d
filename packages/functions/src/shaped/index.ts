export {
  type FinishedPiece,
  type FinishedWhole,
  finishedPieces,
  finishedWhole,
} from './finished.ts';
export {
  type JoinedPiece,
  joinedPiece,
  type MadePiece,
  madePiece,
  pieceStanding,
  standingPiece,
} from './made.ts';
export { type EndSetting, type PieceShape, shapeOf } from './shape-of.ts';
export {
  type BlockOrSolid,
  type FormedPart,
  isShaped,
  outwardOf,
  placementOf,
  roomOf,
  withMiddles,
} from './standing.ts';
export { TOLERANCE } from './tolerance.ts';
export { faceTowards, sideOf } from './turned.ts';
