import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Numbers, sceneOf } from './testing/boxes.ts';
import { DIRECTIONS, project, type Segment, type View, type ViewPiece } from './views.ts';

// What is expected here was worked out by hand on squared paper, or by asking for every stretch of
// every line, one at a time, whether a nearer box covers its middle.

const written = ({ x1, y1, x2, y2 }: Segment): string => `${x1},${y1} ${x2},${y2}`;

function edges(boxes: readonly Numbers[], view: View) {
  const projection = project(sceneOf(boxes), view);
  return {
    visible: projection?.visible.map(written).sort(),
    hidden: projection?.hidden.map(written).sort(),
  };
}

describe('projection', () => {
  it('shows one box as its rectangle in each view', () => {
    const box: Numbers = [1, 2, 3, 10, 20, 30];
    expect(project(sceneOf([box]), 'plan')?.bounds).toMatchObject({
      left: 1,
      right: 11,
      bottom: 2,
      top: 22,
    });
    expect(project(sceneOf([box]), 'front')?.bounds).toMatchObject({
      left: 1,
      right: 11,
      bottom: 3,
      top: 33,
    });
    expect(project(sceneOf([box]), 'end')?.bounds).toMatchObject({
      left: 2,
      right: 22,
      bottom: 3,
      top: 33,
    });
    expect(edges([box], 'front')).toEqual({
      visible: ['1,3 1,33', '1,3 11,3', '1,33 11,33', '11,3 11,33'],
      hidden: [],
    });
  });

  it('hides what lies under a top and shows what sticks out from under it', () => {
    const top: Numbers = [0, 0, 10, 10, 10, 1];
    const rail: Numbers = [5, 4, 0, 10, 2, 5];
    expect(edges([top, rail], 'plan')).toEqual({
      visible: [
        '0,0 0,10',
        '0,0 10,0',
        '0,10 10,10',
        '10,0 10,10',
        '10,4 15,4',
        '10,6 15,6',
        '15,4 15,6',
      ],
      hidden: ['5,4 10,4', '5,4 5,6', '5,6 10,6'],
    });
  });

  it('looks from the near side in front and from the right at the end', () => {
    const small: Numbers = [4, 0, 4, 2, 1, 2];
    const big: Numbers = [0, 5, 0, 10, 1, 10];
    expect(edges([big, small], 'front').hidden).toEqual([]);
    expect(edges([big, [4, 9, 4, 2, 1, 2]], 'front').hidden).toHaveLength(4);
    const right: Numbers = [9, 4, 4, 1, 2, 2];
    const left: Numbers = [-9, 4, 4, 1, 2, 2];
    const panel: Numbers = [0, 0, 0, 1, 10, 10];
    expect(edges([panel, right], 'end').hidden).toEqual([]);
    expect(edges([panel, left], 'end').hidden).toHaveLength(4);
  });

  it('draws a line once where a hidden edge runs behind a visible one', () => {
    const near: Numbers = [0, 0, 0, 10, 1, 10];
    const far: Numbers = [0, 5, 0, 10, 1, 10];
    expect(edges([near, far], 'front')).toEqual(edges([near], 'front'));
  });

  it('joins touching edges of two boxes into one line, and keeps the joint between them', () => {
    const result = edges(
      [
        [0, 0, 0, 10, 1, 2],
        [10, 0, 0, 10, 1, 2],
      ],
      'front',
    );
    expect(result.visible).toEqual(['0,0 0,2', '0,0 20,0', '0,2 20,2', '10,0 10,2', '20,0 20,2']);
    expect(result.hidden).toEqual([]);
  });

  it('takes positions that differ by rounding noise as equal', () => {
    const noisy = 0.1 + 0.2;
    const result = edges(
      [
        [0, 0, 0, noisy, 1, 1],
        [0.3, 0, 0, 1, 1, 1],
      ],
      'front',
    );
    expect(result.visible).toContain('0.3,0 0.3,1');
    expect(result.visible).toHaveLength(5);
  });

  it('has no view of nothing', () => {
    expect(project(sceneOf([]), 'plan')).toBeUndefined();
  });
});

const small = fc.integer({ min: 0, max: 12 });
const side = fc.integer({ min: 1, max: 6 });
const box = fc.tuple(small, small, small, side, side, side);
const boxes = fc.array(box, { minLength: 1, maxLength: 12 });
const anyView = fc.constantFrom<View>('plan', 'front', 'end');

interface Flat {
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly level: boolean;
}

const flat = ({ x1, y1, x2, y2 }: Segment): Flat =>
  y1 === y2
    ? { line: y1, from: x1, to: x2, level: true }
    : { line: x1, from: y1, to: y2, level: false };

/** For the unit stretch from `at` on a line: is there an edge, and is one of the edges seen? */
function askOneByOne(pieces: readonly ViewPiece[], level: boolean, line: number, at: number) {
  const middle = at + 0.5;
  const within = (low: number, value: number, high: number): boolean => low < value && value < high;
  const onEdge = pieces.filter((p) =>
    level
      ? (p.bottom === line || p.top === line) && within(p.left, middle, p.right)
      : (p.left === line || p.right === line) && within(p.bottom, middle, p.top),
  );
  const [x, y] = level ? [middle, line] : [line, middle];
  const seen = onEdge.some((p) =>
    pieces.every(
      (q) => !(q.near < p.near && within(q.left, x, q.right) && within(q.bottom, y, q.top)),
    ),
  );
  return { edge: onEdge.length > 0, seen };
}

const coversUnit = (lines: readonly Flat[], level: boolean, line: number, at: number): number =>
  lines.filter((l) => l.level === level && l.line === line && l.from <= at && at + 1 <= l.to)
    .length;

describe('visibility of random boxes', () => {
  it('agrees, unit by unit, with asking whether a nearer box covers the spot', () => {
    fc.assert(
      fc.property(boxes, anyView, (numbers, view) => {
        const projection = project(sceneOf(numbers), view);
        expect(projection).toBeDefined();
        if (projection === undefined) return;
        const visible = projection.visible.map(flat);
        const hidden = projection.hidden.map(flat);
        for (const level of [true, false]) {
          for (let line = 0; line <= 18; line++) {
            for (let at = 0; at < 18; at++) {
              const { edge, seen } = askOneByOne(projection.pieces, level, line, at);
              expect(coversUnit(visible, level, line, at)).toBe(seen ? 1 : 0);
              expect(coversUnit(hidden, level, line, at)).toBe(edge && !seen ? 1 : 0);
            }
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it('gives only real numbers, and lines that lie on edges of boxes', () => {
    const real = fc.double({ min: 0.01, max: 5000, noNaN: true });
    const loose = fc.array(fc.tuple(real, real, real, real, real, real), {
      minLength: 1,
      maxLength: 10,
    });
    fc.assert(
      fc.property(loose, anyView, (numbers, view) => {
        const projection = project(sceneOf(numbers), view);
        if (projection === undefined) throw new Error('a scene with boxes has a view');
        for (const segment of [...projection.visible, ...projection.hidden]) {
          expect(Object.values(segment).every(Number.isFinite)).toBe(true);
          const { level, line, from, to } = flat(segment);
          expect(to).toBeGreaterThan(from);
          const ends = projection.pieces.filter((p) =>
            level ? p.bottom === line || p.top === line : p.left === line || p.right === line,
          );
          const starts = ends.map((p) => (level ? p.left : p.bottom));
          const stops = ends.map((p) => (level ? p.right : p.top));
          expect(Math.min(...starts)).toBeLessThanOrEqual(from);
          expect(Math.max(...stops)).toBeGreaterThanOrEqual(to);
        }
      }),
      { numRuns: 100 },
    );
  });

  it('keeps the axes apart: depth never shows in a view', () => {
    fc.assert(
      fc.property(box, anyView, fc.integer({ min: 1, max: 50 }), (numbers, view, push) => {
        const { depth } = DIRECTIONS[view];
        const index = ['x', 'y', 'z'].indexOf(depth);
        const pushed = numbers.map((n, i) => (i === index ? n + push : n));
        const [x = 0, y = 0, z = 0, dx = 1, dy = 1, dz = 1] = pushed;
        expect(edges([[x, y, z, dx, dy, dz]], view)).toEqual(edges([numbers], view));
      }),
      { numRuns: 50 },
    );
  });

  it('shows or hides the whole of each edge: the two add up to all edges, each line once', () => {
    fc.assert(
      fc.property(boxes, anyView, (numbers, view) => {
        const projection = project(sceneOf(numbers), view);
        if (projection === undefined) throw new Error('a scene with boxes has a view');
        const { pieces, visible, hidden } = projection;
        // Unit stretches that carry any edge, counted once each: sizes are whole numbers here.
        const stretches = new Set<string>();
        for (const { left, right, bottom, top } of pieces) {
          for (let x = left; x < right; x++) stretches.add(`${x} ${bottom}-`).add(`${x} ${top}-`);
          for (let y = bottom; y < top; y++) stretches.add(`${left} ${y}|`).add(`${right} ${y}|`);
        }
        const total = [...visible, ...hidden]
          .map(flat)
          .reduce((sum, { from, to }) => sum + to - from, 0);
        expect(total).toBeCloseTo(stretches.size, 6);
      }),
    );
  });

  it('hides nothing of a box alone, nor of the one that is nearest', () => {
    fc.assert(
      fc.property(boxes, box, anyView, (numbers, [x, y, z, dx, dy, dz], view) => {
        const { depth, sign } = DIRECTIONS[view];
        expect(project(sceneOf([[x, y, z, dx, dy, dz]]), view)?.hidden).toEqual([]);
        const off = (axis: string): number => (axis === depth ? -sign * 100 : 0);
        const nearest: Numbers = [x + off('x'), y + off('y'), z + off('z'), dx, dy, dz];
        const all = project(sceneOf([...numbers, nearest]), view);
        const own = project(sceneOf([nearest]), view)?.visible.map(flat) ?? [];
        for (const { level, line, from, to } of own) {
          const shown = (all?.visible ?? [])
            .map(flat)
            .some((l) => l.level === level && l.line === line && l.from <= from && l.to >= to);
          expect(shown).toBe(true);
        }
      }),
    );
  });

  it('is turned over when the boxes are turned over', () => {
    fc.assert(
      fc.property(boxes, anyView, (numbers, view) => {
        const { across, depth } = DIRECTIONS[view];
        const over = numbers.map((n): Numbers => {
          const at = [n[0], n[1], n[2]];
          const size = [n[3], n[4], n[5]];
          const k = ['x', 'y', 'z'].indexOf(across);
          at[k] = 40 - (at[k] ?? 0) - (size[k] ?? 0);
          return [at[0] ?? 0, at[1] ?? 0, at[2] ?? 0, n[3], n[4], n[5]];
        });
        expect(depth).not.toBe(across);
        const turned = ({ x1, y1, x2, y2 }: Segment): string =>
          written({ x1: 40 - Math.max(x1, x2), y1, x2: 40 - Math.min(x1, x2), y2 });
        const one = project(sceneOf(numbers), view);
        const other = project(sceneOf(over), view);
        expect(other?.visible.map(written).sort()).toEqual(one?.visible.map(turned).sort());
        expect(other?.hidden.map(written).sort()).toEqual(one?.hidden.map(turned).sort());
      }),
    );
  });
});
