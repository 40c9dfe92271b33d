export type { Blank, Exact } from './blank.ts';
export { type Bounds, boundsOf } from './bounds.ts';
export { boxSolid } from './box.ts';
export type { ConvexCut, Cut, EdgeName, ToolCut } from './cuts.ts';
export { type EndAngles, endAngles } from './ends.ts';
export type { Face } from './faces.ts';
export { type Faceting, USUAL_FACETING } from './faceting.ts';
export { ShapedPieces } from './kept.ts';
export { areaBeside, type Measures, measured } from './measure.ts';
export { type SharedRoom, type SharedRooms, sharedRooms, TOUCHING } from './meet.ts';
export type { Outline } from './outline.ts';
export {
  followedBy,
  leaningBy,
  mirroredIn,
  movedBy,
  movedTo,
  type Placement,
  placed,
  turnedAbout,
  turnedBack,
  turnedBy,
  UNMOVED,
  UPRIGHT,
  undone,
} from './place.ts';
export { type Length, type ProblemCode, problemSays, type ShapeProblem } from './problem.ts';
export { type Crossing, crossings, type FlatContact, flatContact } from './rays.ts';
export { type Section, type SectionPlane, sectionOf } from './section.ts';
export { type NotShaped, type Shape, type Shaped, shaped } from './shape.ts';
export { facesOnto, touching } from './touch.ts';
export type { Convex, Edge, Facet, Solid, Triple } from './types.ts';
export { cross, dot, opposite, plus, times } from './vectors.ts';
