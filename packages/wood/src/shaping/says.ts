import type { ShapeWordColumn } from './forms.ts';

/** A shape that cannot be read; its message is the sentence a maker reads. */
export class ShapeWordFault extends Error {
  constructor(says: string) {
    super(says);
    this.name = 'ShapeWordFault';
  }
}

const TAKES = {
  shape: 'It takes round, oval, superellipse, rounded corners, rod or box',
  taper: 'It takes two inside faces, four faces, outside faces, or names such as front and back',
  ends: 'It takes level, square, or an angle such as mitered 45 or beveled 10 left',
  edge: 'It takes round-over, chamfer or cove, and where, such as round-over top',
} as const satisfies Record<ShapeWordColumn, string>;

/** What can be wrong with a shape: what was typed, what was expected, what to do. */
export const SHAPE_SAYS = {
  unread: (column: ShapeWordColumn, part: string, words: string, near: string | undefined) =>
    `The ${column} of ${part} ${column === 'ends' ? 'say' : 'says'} "${words}", which shapes nothing. ${near === undefined ? TAKES[column] : `Nearest: "${near}"`}.`,
  notText: (column: ShapeWordColumn, part: string, got: string) =>
    `The ${column} of ${part} ${column === 'ends' ? 'are' : 'is'} ${got}. ${TAKES[column]}.`,
  exponent: (part: string, got: string) =>
    `The superellipse of ${part} has the number ${got}; it may be 1.2 to 20, so write 2.5 for a usual one.`,
  noAngle: (part: string, words: string) =>
    `The ends of ${part} say "${words}" and no angle: write the degrees away from square, such as "${words} 45".`,
  angle: (part: string, got: string) =>
    `The ends of ${part} have an angle of ${got}°; from square it may be above 0 and up to 80, so make it that.`,
  twice: (part: string, what: string) =>
    `The ends of ${part} say "${what}" twice for one end. Keep one of the two, or say which end each is for.`,
  lieTwice: (part: string) =>
    `The ends of ${part} are said to be both level and square. Keep one of the two.`,
  noRadius: (part: string) =>
    `${part} has rounded corners and no radius. Write it under corner, such as 2.`,
  noCorners: (part: string, shape: string) =>
    `${part} is ${shape} and has no corners to round. Clear its corner, or its shape.`,
  noTaperTo: (part: string) =>
    `${part} is tapered, and not to what. Write the size left at the narrow end under taper to.`,
  noTaper: (part: string, column: string) =>
    `${part} has a ${column} and no taper. Write which faces lean under taper, such as "two inside faces".`,
  noEdgeSize: (part: string) =>
    `${part} has a shaped edge and no size of it. Write how far it goes in under edge size.`,
  noEdge: (part: string) =>
    `${part} has an edge size and no edge. Write round-over, chamfer or cove under edge.`,
  splay: (part: string, column: string, got: string) =>
    `The ${column} of ${part} is ${got}°; it may be -60 to 60, so make it that.`,
  flat: (part: string) =>
    `${part} lies flat and cannot lean. Write upright or on edge under place, or clear its splay.`,
  leansAlong: (part: string, column: string, other: string) =>
    `${part} lies on edge and leans to one side only. Clear its ${column}, and write the angle under ${other}.`,
  levelEdge: (part: string) =>
    `${part} lies on edge, so its ends stand and cannot be level. Clear "level" under ends.`,
  noOutside: (part: string, way: 'along' | 'across') =>
    `${part} stands in the middle ${way} and has no outside to lean to. Clear its splay ${way}, or give the pieces beside it a row of their own.`,
  roundSides: (part: string) =>
    `${part} is round and its width and length differ. Make both alike, or write oval.`,
  roundTaper: (part: string, shape: string) =>
    `${part} is ${shape}, and a taper takes flat faces. Clear its taper, or its shape.`,
  roundEnds: (part: string, shape: string) =>
    `${part} is ${shape} and has no ends to cut at an angle. Clear its ends, or its shape.`,
  roundArch: (part: string, shape: string) =>
    `${part} is ${shape} and has no straight lower edge for an arch. Clear its arch, or its shape.`,
  roundCove: (part: string, shape: string) =>
    `${part} is ${shape}, and a cove runs along straight edges only. Write round-over or chamfer.`,
  arch: (part: string) =>
    `${part} has its arch under it, and stands upright. Lay it flat or on edge, or clear its arch.`,
  noMiddle: (part: string, faces: string) =>
    `The ${faces} faces of ${part} cannot be told: it stands in the middle. Name the faces, such as front and back.`,
  noFace: (column: string, part: string, side: string) =>
    `The ${column} of ${part} names its ${side}, which is an end as it lies. Name another side.`,
  noEnd: (part: string, side: string, ends: string) =>
    `The ends of ${part} name its ${side}, where it has no end as it lies. Its ends are ${ends}.`,
  notLonger: (part: string, side: string) =>
    `The ends of ${part} say ${side} longer, which this cut does not change. Name a side across it, or leave that out.`,
} as const;
