import type { Placement } from '@kerfbook/solids';
import { alongAxes, cornerOf, type Turn } from '@kerfbook/wood';
import type { Part, Placing } from './parts.ts';

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
const TURNED: Readonly<Record<Turn, Placement['axes']>> = {
  LWT: [RIGHT, BACK, UP],
  WLT: [BACK, LEFT, UP],
  LTW: [RIGHT, UP, FRONT],
  TLW: [BACK, UP, RIGHT],
  WTL: [DOWN, RIGHT, FRONT],
  TWL: [DOWN, BACK, RIGHT],
};

/** From the frame of a piece to the room: how it is turned, and where its corner 0, 0, 0 comes to, mm. */
export function placementOf(part: Part, placing: Placing, copy: number): Placement {
  const axes = TURNED[placing.turn];
  const [alongX, alongY, alongZ] = alongAxes(placing.turn, part);
  const [x, y, z] = cornerOf(placing, copy);
  // An axis that points back along one of the room begins at the far side of the piece.
  const isBackwards = (axis: 0 | 1 | 2): boolean => axes.some((way) => way[axis] < 0);
  return {
    axes,
    shift: [
      isBackwards(0) ? x + alongX : x,
      isBackwards(1) ? y + alongY : y,
      isBackwards(2) ? z + alongZ : z,
    ],
  };
}
