export {
  type FinishedPiece,
  type FinishedWhole,
  finishedPieces,
  finishedWhole,
} from './finished.ts';
export {
  isShaped,
  type JoinedPiece,
  joinedPiece,
  type MadePiece,
  madePiece,
  pieceStanding,
  standingPiece,
} from './made.ts';
export { type EndSetting, type PieceShape, shapeOf } from './shape-of.ts';
export { type FormedPart, outwardOf, placementOf, roomOf, wholeMiddle } from './standing.ts';
export { faceTowards, sideOf } from './turned.ts';
