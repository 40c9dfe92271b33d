import { describe, expect, it } from 'vitest';
import { measured } from './measure.ts';
import { sharedRooms } from './meet.ts';
import {
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
  UPRIGHT,
  undone,
} from './place.ts';
import { type Shape, shaped } from './shape.ts';
import { Random } from './testdata/random.ts';
import { randomShape } from './testdata/shapes.ts';
import type { Solid, Triple } from './types.ts';
import { cross, dot, lengthOf, minus, radians, unit } from './vectors.ts';

const solidOf = (shape: Shape): Solid => {
  const answer = shaped(shape);
  if (!answer.ok) throw new Error(answer.problem.says.join(''));
  return answer.solid;
};
const box = (length: number, width: number, thickness: number): Solid =>
  solidOf({ blank: { kind: 'box', length, width, thickness } });

const near = (got: Triple, wanted: Triple): void => {
  for (const axis of [0, 1, 2] as const) expect(got[axis]).toBeCloseTo(wanted[axis], 9);
};

describe('a placement', () => {
  it('is undone: what it moved is where it was, mirrored or not', () => {
    const stands = followedBy(
      followedBy(mirroredIn(1), turnedAbout([1, 2, -3], 37)),
      movedBy([5, -7, 11]),
    );
    near(movedTo(undone(stands), movedTo(stands, [3, -4, 2])), [3, -4, 2]);
    near(movedTo(stands, undone(stands).shift), [0, 0, 0]);
  });

  it('turns anticlockwise, and square turns are exact', () => {
    expect(turnedBy(turnedAbout([0, 0, 1], 90), [1, 0, 0])).toEqual([0, 1, 0]);
    expect(turnedBy(turnedAbout([1, 0, 0], -90), [0, 1, 0])).toEqual([0, 0, -1]);
    near(turnedBy(turnedAbout([0, 0, 2], 30), [2, 0, 0]), [Math.sqrt(3), 1, 0]);
  });

  it('stands a piece on end with its front to the front', () => {
    const leg = placed(box(700, 60, 40), followedBy(UPRIGHT, movedBy([40, 0, 0])));
    expect(measured(leg).bounds).toEqual({ low: [0, 0, 0], high: [40, 60, 700] });
  });

  it('follows another in the order they are said', () => {
    const first = followedBy(movedBy([10, 0, 0]), turnedAbout([0, 0, 1], 90));
    near(movedTo(first, [1, 0, 0]), [0, 11, 0]);
    const other = followedBy(turnedAbout([0, 0, 1], 90), movedBy([10, 0, 0]));
    near(movedTo(other, [1, 0, 0]), [10, 1, 0]);
    near(turnedBack(other, turnedBy(other, [1, 2, 3])), [1, 2, 3]);
  });

  it('leans by what drawings show from the front and from the side, and does not twist', () => {
    const lean = leaningBy(10, 7);
    const [x, y, z] = turnedBy(lean, [0, 0, 1]);
    expect(x / z).toBeCloseTo(Math.tan(radians(10)), 12);
    expect(y / z).toBeCloseTo(Math.tan(radians(7)), 12);
    // The level line square to the lean stays where it is.
    const level = unit([-y, x, 0]);
    near(turnedBy(lean, level), level);
    expect(leaningBy(0, 0)).toEqual(leaningBy(-0, 0));
  });

  it('keeps volume, area, cells and edges of random pieces, mirrored too', () => {
    const random = new Random(7);
    const placements: readonly Placement[] = [
      followedBy(turnedAbout([1, 2, 3], 77), movedBy([1000, -200, 3])),
      followedBy(mirroredIn(0), leaningBy(12, -8)),
    ];
    for (let index = 0; index < 60; index++) {
      const answer = shaped(randomShape(random));
      if (!answer.ok) continue;
      const before = measured(answer.solid);
      for (const placement of placements) {
        const moved = placed(answer.solid, placement);
        const after = measured(moved);
        expect(after.volume / before.volume).toBeCloseTo(1, 10);
        expect(after.area / before.area).toBeCloseTo(1, 10);
        expect(lengthOf(minus(after.centroid, movedTo(placement, before.centroid)))).toBeLessThan(
          1e-6,
        );
        expect(moved.cells).toHaveLength(answer.solid.cells.length);
        expect(worstFacet(moved)).toBeLessThan(1e-4);
        expect(moved.edges).toHaveLength(answer.solid.edges.length);
      }
    }
  });
});

/** How far facets are from what they say of themselves: corners in the plane, anticlockwise around the normal. */
function worstFacet({ facets }: Solid): number {
  let worst = 0;
  for (const { points, normal, offset } of facets) {
    const [a, b, c] = points as [Triple, Triple, Triple];
    worst = Math.max(worst, ...points.map((point) => Math.abs(dot(normal, point) - offset)));
    if (points.length === 3 && dot(cross(minus(b, a), minus(c, a)), normal) <= 0) return Infinity;
  }
  return worst;
}

describe('two pieces', () => {
  const rail = box(500, 80, 20);

  it('that touch share nothing', () => {
    expect(sharedRooms(rail, placed(rail, movedBy([500, 0, 0])))).toEqual({
      volume: 0,
      depth: 0,
      rooms: [],
    });
    expect(sharedRooms(rail, placed(rail, movedBy([499.95, 0, 0]))).rooms).toEqual([]);
  });

  it('share what they share, as deep as it is thin', () => {
    const { volume, depth, rooms } = sharedRooms(rail, placed(rail, movedBy([490, 30, 4])));
    expect(volume).toBeCloseTo(10 * 50 * 16, 6);
    expect(depth).toBeCloseTo(10, 9);
    expect(rooms).toHaveLength(1);
    expect(rooms[0]!.bounds).toEqual({ low: [490, 30, 4], high: [500, 80, 20] });
  });

  it('are told of each place by itself', () => {
    const post = box(40, 40, 300);
    const frame = solidOf({
      blank: { kind: 'box', length: 500, width: 200, thickness: 20 },
      cuts: [{ kind: 'mortise', face: 'top', at: [250, 100], length: 420, width: 120, depth: 20 }],
    });
    const across = placed(post, followedBy(turnedAbout([1, 0, 0], 90), movedBy([200, 250, -10])));
    const { rooms, depth } = sharedRooms(frame, across);
    expect(rooms.map((room) => room.volume)).toEqual([
      expect.closeTo(40 * 40 * 20, 6),
      expect.closeTo(40 * 40 * 20, 6),
    ]);
    expect(depth).toBeCloseTo(20, 9);
  });

  it('do not clash where a tenon fills its mortise, straight, turned or leaning', () => {
    const leg = solidOf({
      blank: { kind: 'box', length: 700, width: 60, thickness: 60 },
      cuts: [{ kind: 'mortise', face: 'back', at: [60, 30], length: 70, width: 10, depth: 30 }],
    });
    const apron = solidOf({
      blank: { kind: 'box', length: 400, width: 90, thickness: 20 },
      cuts: [{ kind: 'tenon', end: 'start', length: 30, width: 70, thickness: 10 }],
    });
    // The apron's start goes into the back of the leg, its width along the leg's length.
    const joined: Placement = {
      axes: [
        [0, 1, 0],
        [1, 0, 0],
        [0, 0, 1],
      ],
      shift: [15, 30, 20],
    };
    const deeper = followedBy(joined, movedBy([0, -2, 0]));
    for (const turn of [movedBy([0, 0, 0]), turnedAbout([1, 1, 0.3], 33), mirroredIn(1)]) {
      const there = placed(leg, turn);
      expect(sharedRooms(there, placed(apron, followedBy(joined, turn))).rooms).toEqual([]);
      const { volume, depth } = sharedRooms(there, placed(apron, followedBy(deeper, turn)));
      expect(depth).toBeCloseTo(2, 6);
      // Tenon and shoulders together are as large as the apron's section.
      expect(volume).toBeCloseTo(2 * 90 * 20, 4);
    }
  });

  it('share what a leaning dowel has of a board: an oval disc', () => {
    const board = box(200, 200, 40);
    const dowel = solidOf({
      blank: {
        kind: 'prism',
        outline: { kind: 'disc', diameter: 20 },
        through: 300,
        along: 'length',
      },
      faceting: { tolerance: 0.001 },
    });
    const lean = followedBy(
      followedBy(movedBy([-150, -10, -10]), UPRIGHT),
      followedBy(leaningBy(20, 0), movedBy([100, 100, 20])),
    );
    const { volume } = sharedRooms(board, placed(dowel, lean));
    expect(volume / ((Math.PI * 100 * 40) / Math.cos(radians(20)))).toBeCloseTo(1, 3);
  });
});
