import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawSheets } from './draw.ts';
import { readParts } from './parts.ts';
import { buildScene } from './scene.ts';
import type { Sheet } from './sheet.ts';
import { HEADER, type TableSizes, tableRows } from './testing/dining-table.ts';
import { fakeBook } from './testing/fake-book.ts';
import { ownFormat } from './units.ts';
import type { Rectangle, Segment, View } from './views.ts';

const sixteenths = ownFormat('us', (own) => {
  const whole = Math.floor(own);
  const rest = Math.round((own - whole) * 16);
  return rest === 0 ? `${whole}` : `${whole}-${rest}/16`;
});

const step = (min: number, max: number) =>
  fc.integer({ min: min * 8, max: max * 8 }).map((eighths) => eighths / 8);

const anyTable: fc.Arbitrary<TableSizes> = fc.record({
  length: step(30, 160),
  width: step(20, 60),
  height: step(14, 44),
  top: step(0.5, 4),
  overhangEnd: step(0, 10),
  overhangSide: step(0, 5),
  leg: step(1, 5),
  apronWidth: step(2, 6),
  apronThickness: step(0.5, 1.5),
  setback: step(0, 1),
  supports: fc.integer({ min: 0, max: 5 }),
});

const anyViews = fc.constantFrom<View[]>(
  ['plan', 'front'],
  ['front'],
  ['end'],
  ['plan', 'front', 'end'],
  ['end', 'plan'],
);

function sheetsOf(sizes: TableSizes, views: readonly View[]): Sheet[] {
  const { parts } = readParts(fakeBook([HEADER, ...tableRows(sizes)]));
  return drawSheets(buildScene(parts), { views, format: sixteenths });
}

const meets = (a: Rectangle, b: Rectangle): boolean =>
  a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;

const boxOf = ({ x1, y1, x2, y2 }: Segment): Rectangle => ({
  left: Math.min(x1, x2),
  right: Math.max(x1, x2),
  bottom: Math.min(y1, y2),
  top: Math.max(y1, y2),
});

const inside = (inner: Rectangle, outer: Rectangle): boolean =>
  inner.left >= outer.left &&
  inner.right <= outer.right &&
  inner.bottom >= outer.bottom &&
  inner.top <= outer.top;

describe('dimensions of any table', () => {
  it('has no text on another text, on a line or on an edge, and none outside the picture', () => {
    fc.assert(
      fc.property(anyTable, anyViews, (sizes, views) => {
        for (const { layout, projection, frame } of sheetsOf(sizes, views)) {
          const lines = [...layout.lines, ...projection.visible, ...projection.hidden].map(boxOf);
          for (const [index, label] of layout.labels.entries()) {
            const others = layout.labels.slice(index + 1).map(({ box }) => box);
            const hit = [...others, ...lines].filter((other) => meets(label.box, other));
            expect(hit, `${label.key} ${label.text} in ${projection.view}`).toEqual([]);
            expect(inside(label.box, frame)).toBe(true);
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  it('always shows length, width and height, each once, in the views that can', () => {
    fc.assert(
      fc.property(anyTable, (sizes) => {
        const keys = sheetsOf(sizes, ['plan', 'front']).flatMap(({ layout }) =>
          layout.labels.map(({ key }) => key),
        );
        expect(keys.filter((key) => ['length', 'width', 'height'].includes(key)).sort()).toEqual([
          'height',
          'length',
          'width',
        ]);
        expect(new Set(keys).size).toBe(keys.length);
      }),
      { numRuns: 100 },
    );
  });

  it('fits the panel it was made for: 420 units wide, and no view taller than that', () => {
    fc.assert(
      fc.property(anyTable, (sizes) => {
        for (const { frame, unit } of sheetsOf(sizes, ['plan', 'front', 'end'])) {
          expect((frame.right - frame.left) / unit).toBeLessThan(422);
          expect((frame.top - frame.bottom) / unit).toBeLessThan(422);
        }
      }),
      { numRuns: 100 },
    );
  });
});
