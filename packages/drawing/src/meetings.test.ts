import { followedBy, leaningBy, movedBy, type Shape, UPRIGHT } from '@kerfbook/solids';
import { describe, expect, it } from 'vitest';
import { findClashes } from './clashes.ts';
import { explode } from './explode.ts';
import { meetingsOf, partingOf } from './meetings.ts';
import type { Scene } from './scene.ts';
import { shapedScene } from './testing/shaped.ts';

const format = (mm: number): string => String(Math.round(mm * 100) / 100);

const box = (length: number, width: number, thickness: number): Shape => ({
  blank: { kind: 'box', length, width, thickness },
});
const withCuts = (shape: Shape, ...cuts: NonNullable<Shape['cuts']>): Shape => ({ ...shape, cuts });

const TENON = { kind: 'tenon', length: 30, width: 60, thickness: 10 } as const;
const MORTISE = { kind: 'mortise', length: 10, width: 60, depth: 30 } as const;

/** A rail with its tenons in two posts, as it is cut, and standing away from the floor. */
const framed = (cut: boolean): Scene => {
  const post = (face: 'front' | 'back'): Shape => {
    const whole = box(700, 60, 60);
    // The mortise is turned so that its long side runs along the post.
    return cut ? withCuts(whole, { ...MORTISE, face, at: [450, 30], turn: 90 }) : whole;
  };
  const rail = box(400, 80, 22);
  const upright = (x: number) => followedBy(UPRIGHT, movedBy([x, 0, 0]));
  return shapedScene([
    // Its width runs to the back when it stands: turned a quarter, it runs along.
    { name: 'Left post', shape: post('front'), stands: turnedPost(60) },
    { name: 'Right post', shape: post('back'), stands: turnedPost(460) },
    {
      name: 'Rail',
      shape: cut ? withCuts(rail, { ...TENON, end: 'start' }, { ...TENON, end: 'end' }) : rail,
      stands: {
        axes: [
          [1, 0, 0],
          [0, 0, 1],
          [0, -1, 0],
        ],
        shift: [30, 41, 410],
      },
    },
    { name: 'Block', shape: box(50, 50, 50), stands: upright(900) },
  ]);
};

/** A post with its length up and its width pointing left, so that its front is towards higher x. */
const turnedPost = (x: number) => ({
  axes: [
    [0, 0, 1],
    [-1, 0, 0],
    [0, -1, 0],
  ] as const,
  shift: [x, 60, 0] as const,
});

describe('shaped pieces that meet', () => {
  it('clash as they are, and a tenon in its mortise is no clash', () => {
    expect(findClashes(framed(true), { format }).overlaps).toEqual([]);
    const { overlaps } = findClashes(framed(false), { format });
    expect(overlaps.map(({ part, other }) => `${part.name} ${other.name}`)).toEqual([
      'Rail Left post',
      'Rail Right post',
    ]);
    expect(overlaps[0]?.says).toMatch(/^Rail and Left post share 22 × 30 × 80;/);
  });

  it('hold each other where they touch, and float where only their boxes meet', () => {
    const lean = followedBy(UPRIGHT, leaningBy(12, 0));
    const leg = box(500, 30, 30);
    const level = 30 / Math.cos((12 * Math.PI) / 180);
    const beside = (gap: number) =>
      shapedScene([
        { name: 'Leg', shape: leg, stands: lean },
        // Off the floor, beside it.
        { name: 'Batten', shape: leg, stands: followedBy(lean, movedBy([level + gap, 0, 60])) },
      ]);
    // Moved up by 60 mm it leans out of the way by 60 · tan 12°.
    const out = 60 * Math.tan((12 * Math.PI) / 180);
    expect(findClashes(beside(out), { format }).floating).toEqual([]);
    const [floating] = findClashes(beside(out + 2), { format }).floating;
    expect(floating?.says).toBe(
      'Batten touches neither the floor nor another part; check its x, y and z.',
    );
    expect(findClashes(beside(out), { format }).overlaps).toEqual([]);
    expect(findClashes(beside(out - 2), { format }).overlaps).toHaveLength(1);
  });

  it('come apart the way a tenon comes out of its mortise', () => {
    const { pieces } = framed(true);
    const partings = meetingsOf(pieces, 0.1).map((meeting) => ({
      ...partingOf(meeting, pieces, 0.1),
      of: [meeting.first, meeting.second],
    }));
    expect(partings).toEqual([
      { axis: 'x', lower: 0, of: [0, 2] },
      { axis: 'x', lower: 2, of: [1, 2] },
    ]);
    const before = framed(true);
    const after = explode(before, 100);
    const moved = after.scene.pieces.map(({ from }, index) =>
      Math.round(from.x - (before.pieces[index]?.from.x ?? 0)),
    );
    expect(moved.slice(0, 3)).toEqual([-100, 100, 0]);
    // The solid goes with its box, and so does where it stands.
    for (const { solid, from, stands } of after.scene.pieces) {
      const least = Math.min(
        ...(solid?.facets.flatMap(({ points }) => points) ?? []).map(([x]) => x),
      );
      expect(least).toBeCloseTo(from.x, 9);
      expect(stands?.axes).toBeDefined();
    }
    expect(after.traces.map(({ axis }) => axis)).toEqual(['x', 'x']);
  });
});
