import type { Face, Placement, Triple } from '@kerfbook/solids';
import type { Side, Turn } from '@kerfbook/wood';

const RIGHT = [1, 0, 0] as const;
const LEFT = [-1, 0, 0] as const;
const BACK = [0, 1, 0] as const;
const FRONT = [0, -1, 0] as const;
const UP = [0, 0, 1] as const;
const DOWN = [0, 0, -1] as const;

/**
 * Where the length, width and thickness of a piece point when it is turned, from start to end, from front to back
 * and from bottom to top of its own frame. Each is a rotation, never a mirror image. What stands has its start up
 * and its end on the floor, so that a leg is tapered towards its end; what is on edge has its front down, so that
 * an arch in the lower edge is one in its front.
 *
 * | turn | start, end  | front, back | bottom, top |
 * | ---- | ----------- | ----------- | ----------- |
 * | LWT  | left, right | front, back | down, up    |
 * | WLT  | front, back | right, left | down, up    |
 * | LTW  | left, right | down, up    | back, front |
 * | TLW  | front, back | down, up    | left, right |
 * | WTL  | up, down    | left, right | back, front |
 * | TWL  | up, down    | front, back | left, right |
 */
export const TURNED: Readonly<Record<Turn, Placement['axes']>> = {
  LWT: [RIGHT, BACK, UP],
  WLT: [BACK, LEFT, UP],
  LTW: [RIGHT, UP, FRONT],
  TLW: [BACK, UP, RIGHT],
  WTL: [DOWN, RIGHT, FRONT],
  TWL: [DOWN, BACK, RIGHT],
};

/** The way a side of the room looks. */
const WAYS: Readonly<Record<Side, Triple>> = {
  left: LEFT,
  right: RIGHT,
  front: FRONT,
  back: BACK,
  bottom: DOWN,
  top: UP,
};

const LOW_HIGH: readonly (readonly [low: Face, high: Face])[] = [
  ['start', 'end'],
  ['front', 'back'],
  ['bottom', 'top'],
];

/** Which of a piece's own faces looks to a side of the room when it is turned. */
export function faceTowards(turn: Turn, side: Side): Face {
  const [x, y, z] = WAYS[side];
  for (const [index, [a, b, c]] of TURNED[turn].entries()) {
    const along = a * x + b * y + c * z;
    if (along !== 0) return LOW_HIGH[index]![along > 0 ? 1 : 0];
  }
  throw new Error('an axis lies along each side of the room');
}

/** To which side of the room a face of a piece looks when it is turned. */
export function sideOf(turn: Turn, face: Face): Side {
  const sides = Object.keys(WAYS) as Side[];
  return sides.find((side) => faceTowards(turn, side) === face)!;
}
