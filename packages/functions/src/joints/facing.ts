import { TOLERANCE } from '../shaped/tolerance.ts';
import type { FaceWord } from './faces.ts';
import type { Joint } from './read.ts';
import { JOINT_SAYS } from './says.ts';
import { type AxisIndex, type Face, faceAt, type Stand } from './stand.ts';
import type { Desk } from './work.ts';

const ROOM: Readonly<Partial<Record<FaceWord, readonly [AxisIndex, boolean]>>> = {
  left: [0, false],
  right: [0, true],
  front: [1, false],
  back: [1, true],
  bottom: [2, false],
  top: [2, true],
};

/** The faces that words name on a piece as it stands; undefined where they name none clearly, which is said. */
export function facesOf(
  stand: Stand,
  words: readonly FaceWord[],
  joint: Joint,
  desk: Desk,
): readonly Face[] | undefined {
  const faces: Face[] = [];
  for (const word of words) {
    const room = ROOM[word];
    const face =
      room === undefined ? innerFace(stand, word === 'inside', desk) : stand.facing(...room);
    if (face === undefined) {
      desk.say(joint, JOINT_SAYS.faceUnclear(stand.name, word), 'face');
      return undefined;
    }
    faces.push(face);
  }
  return faces;
}

/** Of the two broad faces the one that looks at the middle of all pieces, or away from it. */
function innerFace(stand: Stand, isInside: boolean, desk: Desk): Face | undefined {
  const { room, sign } = stand.inRoom(2);
  const key = (['x', 'y', 'z'] as const)[room] ?? 'x';
  const low = Math.min(...desk.pieces.map(({ from }) => from[key]));
  const high = Math.max(...desk.pieces.map(({ to }) => to[key]));
  const away = (low + high) / 2 - ((stand.room.low[room] ?? 0) + (stand.room.high[room] ?? 0)) / 2;
  if (Math.abs(away) <= TOLERANCE) return undefined;
  return faceAt(2, away * sign > 0 === isInside);
}
