export { JOINT_COLUMNS, type JointColumn } from './columns.ts';
export { FACE_WORDS, type FaceWord } from './faces.ts';
export { ON_FROM_POCKET } from './fasteners.ts';
export type { Hardware } from './hardware.ts';
export { HOLE_TOLERANCE } from './holes.ts';
export { JOINT_FORMS, type JointForm, type JointKind, readJointWords } from './kinds.ts';
export { jointsOf, type TableJoints, type TablePart } from './of-table.ts';
export { type JoinedParts, MOST_CUTS, ontoParts } from './onto-parts.ts';
export type { JointAt, JointProblem } from './piece.ts';
export {
  type Joint,
  type JointCellValue,
  type JointNames,
  type JointsReading,
  type JointsTable,
  readJointsTable,
} from './read.ts';
export { MOST_JOINTS, resolveJoints } from './resolve.ts';
export { JOINT_SAYS } from './says.ts';
export {
  type AxisIndex,
  axesInFace,
  extent,
  type Face,
  faceAt,
  highOf,
  lowOf,
  type Span,
  Stand,
  sharedSpan,
  sideOf,
} from './stand.ts';
export { POCKET, SPARE, USUAL_APART, usualCount, usualFromEnd } from './usual.ts';
export type { JointCut, JointOptions, JointWork } from './work.ts';
