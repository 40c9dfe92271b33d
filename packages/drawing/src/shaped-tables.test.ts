import type { Solid } from '@kerfbook/solids';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Eye, type Gaze, gazeOf } from './eye.ts';
import { parallelView } from './parallel.ts';
import { readParts } from './parts.ts';
import { buildScene, type Scene } from './scene.ts';
import { solidOf } from './shapes/scene-solids.ts';
import { isWithin } from './shapes/silhouette.ts';
import { SQUARE_ON } from './shapes/square-on.ts';
import { type Fake, fakeBook } from './testing/fake-book.ts';
import { dot, plus } from './testing/solids.ts';
import { project } from './views.ts';

// From the words of a parts table to what is drawn, held against single lines of sight through the pieces in space.

type Row = Readonly<Record<string, Fake>>;

const SIZES = [
  'part',
  'count',
  'thickness',
  'width',
  'length',
  'grain',
  'place',
  'x',
  'y',
] as const;

/** Parts of a table or a stool: a top of some outline, legs that taper or splay, aprons that may be arched. */
const tables = fc
  .record({
    top: fc.constantFrom<Row>(
      {},
      { shape: 'round' },
      { shape: 'oval' },
      { shape: 'superellipse 3' },
      { shape: 'rounded corners', corner: 60 },
      { edge: 'round-over top', 'edge size': 8 },
      { edge: 'chamfer bottom', 'edge size': 12 },
    ),
    leg: fc.constantFrom<Row>(
      {},
      { taper: 'two inside faces', 'taper to': 28, 'taper from': 120 },
      { taper: 'four faces', 'taper to': 30 },
      { 'splay along': 8, 'splay across': 5 },
      { 'splay along': 12, 'splay across': 12, taper: 'four faces', 'taper to': 26 },
      { shape: 'rod' },
    ),
    rail: fc.constantFrom<Row>({}, { arch: 35 }),
    high: fc.integer({ min: 40, max: 70 }),
    wide: fc.integer({ min: 40, max: 60 }),
  })
  .map(({ top, leg, rail, high, wide }): readonly Row[] => [
    {
      part: 'Top',
      count: 1,
      thickness: 25,
      width: 10 * wide + 200,
      length: 10 * wide + 200,
      place: 'on Leg',
      ...top,
    },
    {
      part: 'Leg',
      count: 4,
      thickness: 50,
      width: 50,
      length: 10 * high,
      place: 'four corners of Top',
      x: 110,
      y: 90,
      ...leg,
    },
    {
      part: 'Rail',
      count: 2,
      thickness: 20,
      width: 90,
      length: 10 * wide + 200 - 2 * 160,
      place: 'front and back of Top, under Top, on edge along',
      y: 105,
      ...rail,
    },
  ]);

function sceneOf(rows: readonly Row[]): Scene {
  const heads = [...new Set([...SIZES, ...rows.flatMap((row) => Object.keys(row))])];
  const cells = rows.map((row) =>
    heads.map((head) => row[head] ?? (head === 'grain' ? 'length' : null)),
  );
  const reading = readParts(fakeBook([heads, ...cells], 'metric'));
  expect(reading.problems).toEqual([]);
  return buildScene(reading.parts);
}

/** The nearest point of a solid on a line of sight, mm towards the eye; its cells are larger all round by `more`. */
function metAt(
  { cells }: Solid,
  [x, y]: readonly [number, number],
  gaze: Gaze,
  more: number,
): number {
  const start = plus(plus([0, 0, 0], gaze.right, x), gaze.up, y);
  let nearest = -Infinity;
  for (const { facets } of cells) {
    let [enter, leave] = [-Infinity, Infinity];
    for (const { normal, offset } of facets) {
      const room = offset + more - dot(normal, start);
      const rate = dot(normal, gaze.toEye);
      if (Math.abs(rate) < 1e-9) {
        if (room < 0) leave = -Infinity;
      } else if (rate > 0) leave = Math.min(leave, room / rate);
      else enter = Math.max(enter, room / rate);
    }
    if (leave > enter) nearest = Math.max(nearest, leave);
  }
  return nearest;
}

/** Spots spread over a place by the golden section and even steps. */
const spotsIn = (
  { left, right, bottom, top }: { left: number; right: number; bottom: number; top: number },
  count: number,
): (readonly [number, number])[] =>
  Array.from({ length: count }, (_, i) => [
    left + ((i * 0.618034 + 0.31) % 1) * (right - left),
    bottom + ((i + 0.5) / count) * (top - bottom),
  ]);

/** Nearer to an outline, or to what lies behind it, than this a line of sight is no evidence, mm. */
const CLOSE = 0.02;

describe('a parts table with words for shapes', () => {
  it('shows at each place of a 3D view the piece that a line of sight meets first', () => {
    let spots = 0;
    let shaped = 0;
    fc.assert(
      fc.property(
        tables,
        fc.record({
          azimuth: fc.integer({ min: -179, max: 180 }),
          elevation: fc.integer({ min: -60, max: 80 }),
        }),
        (rows, eye: Eye) => {
          const scene = sceneOf(rows);
          const gaze = gazeOf(eye);
          const view = parallelView(scene, eye);
          expect(scene.problems).toEqual([]);
          expect(scene.pieces.length).toBe(7);
          shaped += scene.pieces.filter(({ solid }) => solid !== undefined).length;
          for (const spot of spotsIn(
            view?.bounds ?? { left: 0, right: 0, bottom: 0, top: 0 },
            40,
          )) {
            const inner = scene.pieces.map((piece) => metAt(solidOf(piece), spot, gaze, -CLOSE));
            const outer = scene.pieces.map((piece) => metAt(solidOf(piece), spot, gaze, CLOSE));
            const first = inner.indexOf(Math.max(...inner));
            const rivals = outer.filter(
              (depth, index) => index !== first && depth > (inner[first] ?? 0) - 4 * CLOSE,
            );
            if (inner.some((depth, i) => depth > -Infinity !== (outer[i] ?? 0) > -Infinity))
              continue;
            if (Math.max(...inner) > -Infinity && rivals.length > 0) continue;
            const shown = (view?.pieces ?? []).flatMap(({ faces }, index) =>
              faces.some(({ outlines }) => outlines.some((one) => holds(one, spot))) ? [index] : [],
            );
            expect(shown).toEqual(Math.max(...inner) > -Infinity ? [first] : []);
            spots++;
          }
        },
      ),
      { numRuns: 300, seed: 1 },
    );
    expect(spots).toBeGreaterThan(6000);
    expect(shaped).toBeGreaterThan(900);
  });

  it('covers in the views square on what lines of sight meet of each piece', () => {
    let spots = 0;
    fc.assert(
      fc.property(tables, fc.constantFrom('plan', 'front', 'end'), (rows, view) => {
        const scene = sceneOf(rows);
        const gaze = gazeOf(SQUARE_ON[view]);
        const projection = project(scene, view);
        for (const { piece, outlines, left, right, bottom, top } of projection?.pieces ?? []) {
          for (const [x, y] of spotsIn({ left, right, bottom, top }, 12)) {
            const [inner, outer] = [-CLOSE, CLOSE].map(
              (more) => metAt(solidOf(piece), [x, y], gaze, more) > -Infinity,
            );
            if (inner !== outer) continue;
            const covered = outlines?.some((outline) => isWithin(outline, x, y)) ?? true;
            expect(covered).toBe(inner);
            spots++;
          }
        }
      }),
      { numRuns: 300, seed: 2 },
    );
    expect(spots).toBeGreaterThan(15_000);
  });
});

/** Whether a place lies in a convex outline, whichever way its corners turn. */
function holds(
  outline: readonly (readonly [number, number])[],
  [x, y]: readonly [number, number],
): boolean {
  let sign = 0;
  return outline.every(([px, py], index) => {
    const [qx, qy] = outline[(index + 1) % outline.length] ?? [0, 0];
    const side = Math.sign((qx - px) * (y - py) - (qy - py) * (x - px));
    if (side === 0) return true;
    if (sign === 0) sign = side;
    return side === sign;
  });
}
