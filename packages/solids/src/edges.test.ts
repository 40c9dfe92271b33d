import { describe, expect, it } from 'vitest';
import type { Blank } from './blank.ts';
import type { Cut } from './cuts.ts';
import { shaped } from './shape.ts';
import type { Solid } from './types.ts';
import { lengthOf, minus } from './vectors.ts';

const BOX = { kind: 'box', length: 600, width: 60, thickness: 40 } as const;

function made(cuts: readonly Cut[], blank: Blank = BOX): Solid {
  const answer = shaped({ blank, cuts });
  if (!answer.ok) throw new Error(answer.problem.says.join(''));
  return answer.solid;
}
const creases = ({ edges }: Solid): number => edges.filter(({ smooth }) => !smooth).length;
const smooth = ({ edges }: Solid): number => edges.filter((edge) => edge.smooth).length;
const total = ({ edges }: Solid): number =>
  edges.reduce((sum, { from, to }) => sum + lengthOf(minus(from, to)), 0);

/** What is drawn of a piece: each edge once and whole, however the faces beside it are cut up. */
describe('edges', () => {
  it.each<readonly [name: string, cuts: readonly Cut[], edges: number]>([
    ['a box', [], 12],
    ['a box with a mitred end', [{ kind: 'end', end: 'end', mitre: 45 }], 12],
    ['a chamfer', [{ kind: 'chamfer', edge: ['top', 'front'], width: 5 }], 15],
    [
      'four chamfers',
      (['front', 'back', 'start', 'end'] as const).map((face) => ({
        kind: 'chamfer',
        edge: ['top', face],
        width: 5,
      })),
      20,
    ],
    ['a taper', [{ kind: 'taper', faces: ['top'], to: 20, from: 200, towards: 'end' }], 15],
    ['a groove', [{ kind: 'groove', face: 'top', at: 20, width: 8, depth: 8 }], 24],
    ['a rabbet', [{ kind: 'rabbet', edge: ['top', 'front'], width: 8, depth: 8 }], 18],
    [
      'a mortise',
      [{ kind: 'mortise', face: 'top', at: [300, 30], length: 50, width: 10, depth: 20 }],
      24,
    ],
    [
      'a mortise right through',
      [{ kind: 'mortise', face: 'top', at: [300, 30], length: 50, width: 10 }],
      24,
    ],
    [
      'two mortises that meet',
      [
        { kind: 'mortise', face: 'top', at: [300, 30], length: 50, width: 10, depth: 20 },
        { kind: 'mortise', face: 'front', at: [300, 20], length: 50, width: 10, depth: 25 },
      ],
      36,
    ],
    ['a tenon', [{ kind: 'tenon', end: 'end', length: 30, width: 40, thickness: 10 }], 24],
    // The middles of two sockets at the same depth are cut into the end one after the other.
    [
      'two dovetail sockets',
      [20, 40].map((at) => ({
        kind: 'dovetail',
        face: 'end',
        run: 'across',
        at,
        width: 8,
        depth: 10,
        angle: 8,
      })),
      36,
    ],
    [
      'two grooves side by side',
      [
        { kind: 'groove', face: 'top', at: 20, width: 8, depth: 8 },
        { kind: 'groove', face: 'top', at: 28, width: 8, depth: 8 },
      ],
      24,
    ],
    [
      'two grooves that cross',
      [
        { kind: 'groove', face: 'top', at: 20, width: 8, depth: 8 },
        { kind: 'dado', face: 'top', at: 20, width: 8, depth: 8 },
      ],
      48,
    ],
  ])('of %s are those a maker would draw', (_, cuts, edges) => {
    expect(creases(made(cuts))).toBe(edges);
    expect(smooth(made(cuts))).toBe(0);
  });

  it('are as long as they are, not as they were cut up', () => {
    const box = 4 * 600 + 4 * 60 + 4 * 40;
    // Two lips and two inner edges; two of the box's edges are cut through; both its sides are outlined.
    const dado = 4 * 60 - 2 * 8 + 2 * (8 + 8 + 8);
    const cut: Cut = { kind: 'dado', face: 'top', at: 20, width: 8, depth: 8 };
    expect(total(made([cut]))).toBeCloseTo(box + dado, 6);
  });

  it('within a curve are smooth, and where a round runs into a flat', () => {
    const disc = made([], { kind: 'prism', outline: { kind: 'disc', diameter: 100 }, through: 20 });
    expect([creases(disc), smooth(disc)]).toEqual([2 * smooth(disc), disc.facets.length - 2]);
    const slot = made([{ kind: 'slot', face: 'top', at: [300, 30], length: 50, width: 10 }]);
    // Every corner of the slot has a smooth edge through the board, and two edges around.
    expect(creases(slot) - 12).toBe(2 * smooth(slot));
    const rounded = made([{ kind: 'roundover', edge: ['top', 'front'], radius: 10 }]);
    const steps = smooth(rounded) - 1;
    // Both ends of the round have a chord for each step; two edges where it meets the faces are smooth.
    expect(creases(rounded)).toBe(11 + 2 * steps);
  });

  it('where four faces meet in a line belong to the wood on both sides of it', () => {
    const touching = made([
      { kind: 'rabbet', edge: ['top', 'front'], width: 30, depth: 20 },
      { kind: 'rabbet', edge: ['bottom', 'back'], width: 30, depth: 20 },
    ]);
    const line = touching.edges.filter(
      ({ from, to }) => from[1] === 30 && from[2] === 20 && to[1] === 30 && to[2] === 20,
    );
    expect(line).toHaveLength(2);
    for (const { normals } of line) expect(normals[0]).not.toEqual(normals[1]);
  });
});
