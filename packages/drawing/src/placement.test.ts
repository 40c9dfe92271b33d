import { placementOf } from '@kerfbook/functions/shaped';
import { measured, placed, type Shape, shaped, type Triple, turnedBy } from '@kerfbook/solids';
import { alongAxes, cornerOf, type Turn } from '@kerfbook/wood';
import { describe, expect, it } from 'vitest';
import type { Part, Placing } from './parts.ts';

const SIDES = { thickness: 20, width: 60, length: 700 } as const;
const PART: Part = {
  at: { sheet: 's1', row: 1, column: 0 },
  countAt: { sheet: 's1', row: 1, column: 1 },
  name: 'Leg',
  count: 8,
  ...SIDES,
};
const grid = (turn: Turn, together: boolean): Placing => ({
  turn,
  together,
  lines: [
    { start: 10, step: 900, count: 2 },
    { start: -20, step: 500, count: 2 },
    { start: 30.5, step: 1000, count: 2 },
  ],
});
const solidOf = (cuts: Shape['cuts'] = []) => {
  const answer = shaped({ blank: { kind: 'box', ...SIDES }, cuts });
  if (!answer.ok) throw new Error(answer.problem.says.join(''));
  return answer.solid;
};
const TURNS: readonly Turn[] = ['LWT', 'LTW', 'WLT', 'WTL', 'TLW', 'TWL'];
const COPIES = [0, 1, 2, 3, 4, 5, 6, 7];

const RIGHT: Triple = [1, 0, 0];
const BACK: Triple = [0, 1, 0];
const UP: Triple = [0, 0, 1];
const not = ([x, y, z]: Triple): Triple => [0 - x, 0 - y, 0 - z];

describe('where a piece stands', () => {
  it.each(TURNS)('%s fills the box of its row, copy by copy, in grids and in lines', (turn) => {
    for (const together of [false, true]) {
      const placing = grid(turn, together);
      for (const copy of COPIES) {
        const low = cornerOf(placing, copy);
        const along = alongAxes(turn, SIDES);
        const { bounds } = measured(placed(solidOf(), placementOf(PART, placing, copy)));
        for (const axis of [0, 1, 2] as const) {
          expect(bounds.low[axis]).toBeCloseTo(low[axis], 9);
          expect(bounds.high[axis]).toBeCloseTo(low[axis] + along[axis], 9);
        }
      }
    }
  });

  it.each(TURNS)('%s is a rotation, never a mirror image', (turn) => {
    const [[a, b, c], [d, e, f], [g, h, i]] = placementOf(PART, grid(turn, false), 0).axes;
    expect(a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)).toBe(1);
  });

  /** Which way its end, its back and its top look. */
  const LOOKS: Readonly<Record<Turn, readonly [end: Triple, back: Triple, top: Triple]>> = {
    LWT: [RIGHT, BACK, UP],
    WLT: [BACK, not(RIGHT), UP],
    LTW: [RIGHT, UP, not(BACK)],
    TLW: [BACK, UP, RIGHT],
    WTL: [not(UP), RIGHT, not(BACK)],
    TWL: [not(UP), BACK, RIGHT],
  };
  it.each(TURNS)('%s has each face where it is said to look', (turn) => {
    const placement = placementOf(PART, grid(turn, false), 0);
    const faces: readonly Triple[] = [RIGHT, BACK, UP];
    expect(faces.map((face) => turnedBy(placement, face))).toEqual(LOOKS[turn]);
  });

  it('narrows a tapered leg towards the floor', () => {
    const taper = {
      kind: 'taper',
      faces: ['front', 'back'],
      to: 20,
      from: 0,
      towards: 'end',
    } as const;
    const leg = placed(solidOf([taper]), placementOf(PART, grid('WTL', false), 0));
    const points = leg.facets.flatMap((facet) => facet.points);
    const wide = (z: number): number => {
      const there = points.filter((point) => Math.abs(point[2] - z) < 1e-6).map(([x]) => x);
      return Math.max(...there) - Math.min(...there);
    };
    expect(wide(30.5)).toBeCloseTo(20, 9);
    expect(wide(730.5)).toBeCloseTo(60, 9);
  });
});
