import {
  endAngles,
  followedBy,
  leaningBy,
  measured,
  movedBy,
  type Placement,
  placed,
  type Shape,
  type Solid,
  shaped,
  sharedRooms,
  type Triple,
  turnedAbout,
  turnedBy,
  UPRIGHT,
} from '@kerfbook/solids';
import { compoundBevel, compoundMitre, splayAngle, splayLength, splayTurn } from '@kerfbook/wood';
import { describe, expect, it } from 'vitest';

/** The trade's formulas for angles, against pieces that are cut and put where they go. */

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const degrees = (angle: number): number => (angle * 180) / Math.PI;

const solidOf = (shape: Shape): Solid => {
  const answer = shaped(shape);
  if (!answer.ok) throw new Error(answer.problem.says.join(''));
  return answer.solid;
};

describe.each([
  [10, 7],
  [5, 0],
  [0, 12],
  [25, 25],
  [1, 40],
])('a leg that leans %d° seen from the front and %d° from the side', (front, side) => {
  const stands = followedBy(UPRIGHT, leaningBy(front, side));
  const [x, y, z] = turnedBy(stands, [1, 0, 0]);

  it('is off plumb by SPLAY_ANGLE, along the line of SPLAY_TURN', () => {
    expect(degrees(Math.acos(z))).toBeCloseTo(splayAngle(front, side), 6);
    expect(degrees(Math.atan2(y, x))).toBeCloseTo(splayTurn(front, side), 6);
  });

  it('stands level on an end sawn at the angles it has from its placement, and is SPLAY_LENGTH long', () => {
    const foot = endAngles(stands, [0, 0, -1], 'start')!;
    const head = endAngles(stands, [0, 0, 1], 'end')!;
    const blank = { kind: 'box', length: 500, width: 40, thickness: 30 } as const;
    const solid = solidOf({
      blank,
      cuts: [
        { kind: 'end', end: 'start', ...foot },
        { kind: 'end', end: 'end', ...head },
      ],
    });
    const leg = placed(solid, stands);
    const { bounds, volume } = measured(leg);
    const onFloor = leg.facets.filter(({ normal }) => normal[2] < -1 + 1e-12);
    expect(onFloor).toHaveLength(1);
    for (const point of onFloor[0]!.points) expect(point[2]).toBeCloseTo(bounds.low[2], 9);
    // Its middle is as long as its volume over its section.
    const height = bounds.high[2] - bounds.low[2];
    expect(volume / (40 * 30)).toBeCloseTo(splayLength(height, front, side), 6);
    // Between end and length lies the angle the leg is off plumb.
    const { mitre, bevel } = foot;
    const offSquare = degrees(Math.acos(Math.cos(radians(mitre)) * Math.cos(radians(bevel))));
    expect(offSquare).toBeCloseTo(splayAngle(front, side), 6);
  });
});

describe.each([
  [4, 15],
  [4, 0],
  [6, 30],
  [3, 50],
  [8, 90],
])('a ring of %d sides that lean %d°', (sides, slope) => {
  const half = radians(180 / sides);
  const [sin, cos] = [Math.sin(radians(slope)), Math.cos(radians(slope))];
  const out: Triple = [0, -1, 0];
  // Its length along x, its width up and outwards, its thickness out of the ring.
  const leans: Placement = {
    axes: [
      [1, 0, 0],
      [0, -sin, cos],
      [0, -cos, -sin],
    ],
    shift: [0, 0, 0],
  };
  // Upright, through the middle of the ring and the corner between two sides.
  const joint: Triple = [Math.cos(half), -Math.sin(half) * out[1], 0];
  const other: Triple = [-joint[0], joint[1], 0];
  const end = endAngles(leans, joint, 'end')!;
  const start = endAngles(leans, other, 'start')!;

  it('is sawn by COMPOUND_MITRE and COMPOUND_BEVEL', () => {
    expect(Math.abs(end.mitre)).toBeCloseTo(compoundMitre(sides, slope), 9);
    expect(Math.abs(end.bevel)).toBeCloseTo(compoundBevel(sides, slope), 9);
    expect(start.mitre).toBeCloseTo(end.mitre, 9);
    expect(start.bevel).toBeCloseTo(end.bevel, 9);
  });

  it('closes: neighbours touch without sharing room, and do share it a little further in', () => {
    const [length, width, thickness] = [300, 60, 18];
    const solid = solidOf({
      blank: { kind: 'box', length, width, thickness },
      cuts: [
        { kind: 'end', end: 'end', ...end },
        { kind: 'end', end: 'start', ...start },
      ],
    });
    // The long point, outside at the upper edge, lies in the joint.
    const away = length / 2 / Math.tan(half) - width * sin - thickness * cos;
    const at = (further: number): Placement =>
      followedBy(leans, movedBy([-length / 2, away * out[1] + further, 0]));
    const [there, inward] = [at(0), at(2)];
    const next = turnedAbout([0, 0, 1], 360 / sides);
    const one = placed(solid, there);
    expect(sharedRooms(one, placed(solid, followedBy(there, next)), 0.001).rooms).toEqual([]);
    const two = placed(solid, inward);
    expect(sharedRooms(two, placed(solid, followedBy(inward, next)), 0.001).depth).toBeGreaterThan(
      1,
    );
  });
});
