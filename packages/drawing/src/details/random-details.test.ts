import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Box, cutOpen, jointRow, ROOMS, tenths } from '../testing/cut-open.ts';
import type { Rectangle } from '../views.ts';
import { boundsOf } from './cut-faces.ts';
import { detailSvg } from './detail-svg.ts';
import { detailNote, detailTitle } from './detail-words.ts';

const KINDS = [
  'mortise and tenon',
  'through mortise and tenon',
  'haunched mortise and tenon',
  'loose tenon',
  'tongue and groove',
  'groove',
  'stopped groove',
  'dado',
  'stopped dado',
  'rabbet',
  'half lap',
  'finger joint',
  'dovetails',
  'pocket holes',
  'screws',
  'dowels',
];
const ALONE = ['groove', 'dado', 'rabbet', 'hole', 'slot'];

const TOUCHING = new Set(['loose tenon', 'pocket holes', 'screws', 'dowels']);

const size = fc.integer({ min: 8, max: 120 });
const long = fc.integer({ min: 100, max: 900 });
/** A cell is mostly left blank: then the usual size is taken. */
const maybe = fc.oneof(
  { weight: 5, arbitrary: fc.constant(null) },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 40 }) },
);

/** A post of any size, and a bar that reaches into it, crosses it or stands against it. */
const boards = fc.record({
  post: fc.tuple(size, size, long),
  bar: fc.tuple(size, size, long),
  turns: fc.tuple(
    fc.constantFrom('LTW', 'LWT', 'TLW', 'WLT', 'TWL', 'WTL'),
    fc.constantFrom('LTW', 'LWT', 'TWL', 'WTL'),
  ),
  reach: fc.constantFrom(0.2, 0.5, 0.8, 1),
  at: fc.tuple(fc.constantFrom(0, 0.1, 0.5, -0.2), fc.constantFrom(0, 0.25, 0.7, 0.9)),
});

const cells = fc.record({
  thickness: maybe,
  width: maybe,
  length: maybe,
  depth: maybe,
  diameter: maybe,
  'from edge': maybe,
  'from end': maybe,
  count: fc.oneof(
    { weight: 3, arbitrary: fc.constant(null) },
    { weight: 1, arbitrary: fc.integer({ min: 1, max: 5 }) },
  ),
});

const isApart = (one: Rectangle, other: Rectangle): boolean =>
  one.right <= other.left ||
  other.right <= one.left ||
  one.top <= other.bottom ||
  other.top <= one.bottom;

describe('any joint cut open', () => {
  it('is drawn without a number that is none, its writing apart and of a size that is read', () => {
    let [drawn, marked] = [0, 0];
    fc.assert(
      fc.property(
        fc.constantFrom(...KINDS, ...ALONE.map((kind) => `${kind} in one`)),
        boards,
        cells,
        fc.constantFrom('top', 'bottom', 'front', 'left top', 'front bottom'),
        (kind, { post, bar, turns, reach, at }, some, face) => {
          const spread = (turn: string, [t, w, l]: readonly [number, number, number]): number[] =>
            [...turn].map((letter) => (letter === 'L' ? l : letter === 'W' ? w : t));
          const [deep = 0, wide = 0, high = 0] = spread(turns[0], post);
          const [long = 0] = spread(turns[1], bar);
          const x = TOUCHING.has(kind)
            ? deep
            : kind === 'half lap'
              ? Math.round((deep - long) / 2)
              : Math.round(deep * (1 - reach));
          const [y, z] = [Math.round(wide * at[0]), Math.round(high * at[1])];
          const first: Box = ['Post', ...post, [0, 0, 0], turns[0]];
          const second: Box = ['Bar', ...bar, [x, y, z], turns[1]];
          const alone = kind.endsWith(' in one');
          const { details, says } = cutOpen(
            [first, second],
            alone
              ? jointRow({ joint: kind.replace(' in one', ''), part: 'Post', face, ...some })
              : jointRow({ joint: kind, part: 'Bar', into: 'Post', ...some }),
          );
          // What nothing is wrong with is shown. What goes right through may leave no wood there, nor may a cut in
          // one part; holes of pockets in a part thicker than wide may come out beside the other part.
          const isSure = !alone && kind !== 'pocket holes' && reach < 1;
          if (says.length === 0 && isSure) expect(details).toHaveLength(1);
          for (const detail of details) {
            drawn += 1;
            const svg = detailSvg(detail, { units: 'metric', format: tenths });
            const said = `${detailTitle(detail, 'metric')} ${detailNote(detail, tenths)}`;
            expect(svg + said).not.toMatch(/NaN|Infinity|undefined/);
            const { labels } = detail.layout;
            labels.forEach((label, i) => {
              for (const next of labels.slice(i + 1)) {
                expect(isApart(label.box, next.box), `${label.key} over ${next.key}`).toBe(true);
              }
            });
            for (const { lines } of detail.marks) {
              marked += 1;
              const points = lines.flatMap(({ x1, y1, x2, y2 }): [number, number][] => [
                [x1, y1],
                [x2, y2],
              ]);
              const box = boundsOf(points);
              expect(labels.every((label) => isApart(label.box, box))).toBe(true);
            }
            const { frame, scale, unit } = detail;
            expect(frame.right - frame.left).toBeGreaterThan(0);
            expect((11 * unit) / scale).toBeGreaterThanOrEqual((9 * 25.4) / 72);
            expect((frame.right - frame.left) / scale).toBeLessThanOrEqual(ROOMS.wide.width + 0.01);
            expect((frame.top - frame.bottom) / scale).toBeLessThanOrEqual(
              ROOMS.wide.height + 0.01,
            );
          }
        },
      ),
      { seed: 1611, numRuns: 500 },
    );
    // Not all that chance comes to can be made.
    expect(drawn).toBeGreaterThanOrEqual(200);
    expect(marked).toBeGreaterThanOrEqual(200);
  });
});
