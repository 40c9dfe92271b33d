import type { FaceWord } from './faces.ts';

const USUAL = 'It takes words such as "mortise and tenon", "dado" or "pocket holes"';

/** Whether a name stands for one piece or several decides nothing here: a part is called as its row calls it. */
export const JOINT_SAYS = {
  unread: (text: string, near: string | undefined) =>
    `"${text}" is no joint. ${near === undefined ? USUAL : `Nearest: "${near}"`}.`,
  noJoint: (row: number) =>
    `Row ${row} of the joints table names a part and no joint. Write how it is joined, such as "mortise and tenon".`,
  noPart: (joint: string) =>
    `The ${joint} names no part. Write the part that goes in, as the parts table calls it.`,
  noInto: (joint: string, part: string) =>
    `The ${joint} of ${part} names no part that it goes into. Write one, as the parts table calls it.`,
  notOne: (joint: string, part: string) =>
    `A ${joint} is cut into one part. Name ${part} alone, and say under face where.`,
  unknown: (name: string, near: string | undefined) =>
    `No part is called "${name}". ${near === undefined ? 'Type a part as it stands in the first column of the parts table' : `Nearest: "${near}"`}.`,
  none: (name: string) =>
    `Of ${name} none are wanted: its count is 0, so it is joined to nothing. Leave the row, or name another part.`,
  nowhere: (name: string) =>
    `${name} has no place yet, so its joints cannot be found. Give it one.`,
  leans: (joint: string, part: string, into: string) =>
    `${part} and ${into} stand at an angle to each other, where mortise and tenon, dowels and screws are worked out and ${joint} is not. Write one of these, or leave the row for the bench.`,
  noFlat: (part: string, into: string) =>
    `${part} does not go into ${into} through one flat face, so its shoulders have nothing to lie against. Move it away from edges and curves.`,
  oneTenon: (part: string, into: string) =>
    `${part} goes into ${into} at an angle, where one tenon is worked out. Clear the count, or make it 1.`,
  besideWood: (part: string, into: string) =>
    `${part} touches ${into} in too small a place for these. Write fewer, thinner ones, or move the part.`,
  noFace: (joint: string, part: string) =>
    `The ${joint} in ${part} does not say where. Under face, write ${joint === 'rabbet' ? 'two faces that meet, such as "back inside"' : 'top, bottom, front, back, left, right, inside or outside'}.`,
  faceUnread: (text: string) =>
    `"${text}" is no face. It takes top, bottom, front, back, left, right, inside or outside, and two of them for a rabbet.`,
  faceUnclear: (part: string, face: FaceWord) =>
    `${part} has no face that is clearly the ${face} one: it lies in the middle. Write front, back, left, right, top or bottom.`,
  itself: (part: string) =>
    `${part} is joined to itself. Write the part that it goes into under into, or leave that blank for a cut in one part.`,
  apart: (part: string, into: string) =>
    `${part} and ${into} do not touch, so there is nothing to join. Check their places, or name other parts.`,
  onlyTouch: (joint: string, part: string, into: string, by: string | undefined) =>
    `${part} only touches ${into}, and a ${joint} takes a part that reaches in. Make it longer by that${by === undefined ? '' : `, about ${by} at each end`}, or use dowels, a loose tenon or pocket holes.`,
  reaches: (joint: string, part: string, into: string, by: string) =>
    `${part} reaches ${by} into ${into}, and ${joint} hold parts that only touch. Make it shorter by that, or use a mortise and tenon.`,
  noEnd: (joint: string, part: string, into: string) =>
    `No end of ${part} lies in ${into}, so it has no ${joint} there. Where parts cross, a half lap joins them.`,
  beyond: (part: string, into: string, by: string) =>
    `The tenon of ${part} is longer than ${into} is thick and stands out by ${by}. Make ${part} shorter.`,
  through: (part: string, into: string) =>
    `The tenon of ${part} comes through ${into}, so its mortise is not blind. Make ${part} shorter, or write "through mortise and tenon".`,
  notThrough: (part: string, into: string, by: string) =>
    `The tenon of ${part} ends ${by} before the far face of ${into}. Make ${part} longer by that, or write "mortise and tenon".`,
  shallow: (part: string, into: string, depth: string, by: string) =>
    `${part} reaches ${by} into ${into}, and the cut for it is to be ${depth} deep. Make it as deep or deeper, or the part shorter.`,
  tooBig: (what: string, got: string, room: string) =>
    `The ${what} is ${got}, and there is ${room}. Make it smaller.`,
  meets: (one: string, other: string, piece: string, apart: string, least: string) =>
    `In ${piece} the mortises for ${one} and ${other} ${apart}; leave ${least} between them. Make the tenons shorter, or move one.`,
  little: (what: string, piece: string, left: string, least: string) =>
    `The ${what} leaves ${left} of wood in ${piece}; leave ${least} or more. Make it shallower or narrower, or move it.`,
  noEdge: (part: string, into: string) =>
    `${part} does not lie at an edge of ${into}, so that is no rabbet. Write groove or dado, or move it to the edge.`,
  within: (part: string, into: string) =>
    `${part} does not come out of ${into} on one side, so it has nothing to sit in. Where parts cross, write half lap.`,
  noLap: (part: string, into: string) =>
    `${part} and ${into} do not cross in a way that half of each could be cut away. Let them share their whole thickness.`,
  noCorner: (joint: string, part: string, into: string) =>
    `${part} and ${into} do not share a corner, so there is no room for a ${joint}. Let the end of ${part} reach into the end of ${into}.`,
  pocketsMiss: (part: string, into: string) =>
    `Pocket screws come out in the middle of the thickness of ${part}, and ${into} does not reach there. Move one of them, or use another joint.`,
  noScrew: (part: string, into: string) =>
    `No screw goes through ${part} into ${into} here: there is too little wood to bite in. Use a thicker part, or another joint.`,
  manyCuts: (part: string, most: number) =>
    `${part} is cut in more than ${most} places. The drawing shows ${most} of them; the shop sheet lists all.`,
  many: (most: number) =>
    `Joints are worked out for up to ${most} places where parts meet; the rows from here on are left out. Name fewer parts in them.`,
} as const;
