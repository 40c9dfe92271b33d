import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explode } from './explode.ts';
import { readParts } from './parts.ts';
import { buildScene, type Piece, type Scene } from './scene.ts';
import { type Numbers, sceneOf } from './testing/boxes.ts';
import { HEADER, SAMPLE, tableRows } from './testing/dining-table.ts';
import { fakeBook } from './testing/fake-book.ts';

// What is expected was drawn by hand; there is no published rule of how far to move what.

const table = (): Scene => buildScene(readParts(fakeBook([HEADER, ...tableRows(SAMPLE)])).parts);

const shifts = (before: Scene, after: Scene): number[][] =>
  before.pieces.map((piece, index) => {
    const moved = after.pieces[index];
    return (['x', 'y', 'z'] as const).map((axis) => (moved?.from[axis] ?? 0) - piece.from[axis]);
  });

const named = ({ pieces }: Scene, name: string): number[] =>
  pieces.flatMap(({ part }, index) => (part.name === name ? [index] : []));

describe('a row of three blocks', () => {
  const row: Numbers[] = [
    [0, 0, 0, 10, 10, 10],
    [10, 0, 0, 10, 10, 10],
    [20, 0, 0, 10, 10, 10],
  ];

  it('comes apart evenly from the middle, along the row alone', () => {
    const scene = sceneOf(row);
    expect(shifts(scene, explode(scene, 5).scene)).toEqual([
      [-5, 0, 0],
      [0, 0, 0],
      [5, 0, 0],
    ]);
  });

  it('shows with a line where each two meet', () => {
    expect(explode(sceneOf(row), 5).traces).toEqual([
      { axis: 'x', from: { x: 5, y: 5, z: 5 }, to: 10 },
      { axis: 'x', from: { x: 25, y: 5, z: 5 }, to: 20 },
    ]);
  });

  it('takes a rail whose tenons go into two posts out along its length', () => {
    const scene = sceneOf([
      [0, 0, 0, 50, 50, 700],
      [400, 0, 0, 50, 50, 700],
      [30, 15, 500, 390, 20, 80],
    ]);
    expect(shifts(scene, explode(scene, 100).scene)).toEqual([
      [-100, 0, 0],
      [100, 0, 0],
      [0, 0, 0],
    ]);
  });
});

describe('a table', () => {
  it('has its top lifted, its legs drawn out, and each apron taken along with its legs', () => {
    const scene = table();
    const moved = shifts(scene, explode(scene, 100).scene);
    expect(moved[0]).toEqual([0, 0, 50]);
    const legs = named(scene, 'Leg, left').map((index) => moved[index]);
    expect(legs.map((shift) => shift?.map(Math.sign))).toEqual([
      [-1, -1, -1],
      [-1, 1, -1],
    ]);
    const [short = -1] = named(scene, 'Apron, short');
    expect(moved[short]?.[0]).toBeCloseTo(legs[0]?.[0] ?? Number.NaN, 9);
    expect(moved[short]?.[1]).toBeCloseTo(0, 9);
  });

  it('keeps the sizes, the rows and the number of its pieces', () => {
    const scene = table();
    const after = explode(scene).scene;
    const size = ({ from, to }: Piece): number[] => [to.x - from.x, to.y - from.y, to.z - from.z];
    expect(after.pieces.map(({ part, copy }) => [part, copy])).toEqual(
      scene.pieces.map(({ part, copy }) => [part, copy]),
    );
    for (const [index, piece] of after.pieces.entries()) {
      const was = scene.pieces[index];
      size(piece).forEach((side, k) => {
        expect(side).toBeCloseTo((was && size(was)[k]) ?? Number.NaN, 9);
      });
    }
  });
});

describe('random boxes', () => {
  const spot = fc.integer({ min: 0, max: 12 });
  const side = fc.integer({ min: 1, max: 6 });
  const boxes = fc.array(fc.tuple(spot, spot, spot, side, side, side), { maxLength: 14 });

  it('parts every two that meet face to face by at least what was asked for', () => {
    fc.assert(
      fc.property(boxes, (numbers) => {
        const scene = sceneOf(numbers);
        const after = explode(scene, 10).scene;
        scene.pieces.forEach((a, i) => {
          scene.pieces.forEach((b, j) => {
            const meets = faceToFace(a, b);
            if (meets === undefined) return;
            const [low, high] = [after.pieces[i], after.pieces[j]];
            expect((high?.from[meets] ?? 0) - (low?.to[meets] ?? 0)).toBeGreaterThan(10 - 1e-9);
          });
        });
      }),
      { numRuns: 100 },
    );
  });

  it('only ever gives real numbers, and lines that end where they say', () => {
    fc.assert(
      fc.property(boxes, (numbers) => {
        const { scene, traces } = explode(sceneOf(numbers));
        for (const { from, to } of scene.pieces) {
          expect([from.x, from.y, from.z, to.x, to.y, to.z].every(Number.isFinite)).toBe(true);
        }
        for (const { axis, from, to } of traces) expect(to).not.toBe(from[axis]);
      }),
    );
  });
});

/** The axis along which the second begins where the first ends, if they share a face there. */
function faceToFace(a: Piece, b: Piece): 'x' | 'y' | 'z' | undefined {
  return (['x', 'y', 'z'] as const).find(
    (axis) =>
      a.to[axis] === b.from[axis] &&
      (['x', 'y', 'z'] as const).every(
        (other) => other === axis || (a.from[other] < b.to[other] && b.from[other] < a.to[other]),
      ),
  );
}
