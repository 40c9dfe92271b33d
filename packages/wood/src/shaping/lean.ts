import { alongAxes, type Sides, type Turn } from '../placing/turn.ts';
import type { Lean } from './form.ts';

/** How a turned piece can lean: standing both ways, on edge to its sides, and flat not at all. */
export function leansBy(turn: Turn, { along, across }: Lean): Lean {
  if (turn[2] === 'L') return { along, across };
  if (turn[2] === 'T') return { along: 0, across: 0 };
  return turn[0] === 'L' ? { along: 0, across } : { along, across: 0 };
}

/**
 * What a piece that leans takes up at its upper end along x and y, and its height, in the unit of its sides. Tipped
 * straight over, it does not twist.
 * @param lie whether the ends of what stands are cut level or square to the piece; level when left out
 * Source: geometry of a line in space; the length is that of the wood at its longest point.
 */
export function leanRoom(
  sides: Sides,
  turn: Turn,
  lean: Lean,
  lie: 'level' | 'square' = 'level',
): readonly [along: number, across: number, up: number] {
  const [wide, deep, tall] = alongAxes(turn, sides);
  const { along, across } = leansBy(turn, lean);
  const [x, y] = [Math.abs(tangent(along)), Math.abs(tangent(across))];
  const upright = 1 / Math.hypot(1, x, y);
  const [a, b] = [x * upright, y * upright];
  const shared = (a * b) / (1 + upright);
  const isLevel = lie === 'level' && turn[2] === 'L';
  // Where its two level sides point when it is tipped, as seen from above.
  const first = [1 - a ** 2 / (1 + upright), 0 - shared] as const;
  const second = [0 - shared, 1 - b ** 2 / (1 + upright)] as const;
  if (!isLevel) {
    return [
      first[0] * wide - second[0] * deep,
      second[1] * deep - first[1] * wide,
      upright * tall + a * wide + b * deep,
    ];
  }
  // A level cut draws each side out along the piece until it is level itself.
  const drawn = (a * b) / upright;
  return [
    (first[0] + a ** 2 / upright) * wide + Math.abs(second[0] + drawn) * deep,
    (second[1] + b ** 2 / upright) * deep + Math.abs(first[1] + drawn) * wide,
    upright * tall - a * wide - b * deep,
  ];
}

const tangent = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);
