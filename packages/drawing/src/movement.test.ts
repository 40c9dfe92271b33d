import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawSheets, drawViews } from './draw.ts';
import type { Movement } from './movement.ts';
import { readParts } from './parts.ts';
import { buildScene } from './scene.ts';
import { HEADER, SAMPLE, tableRows } from './testing/dining-table.ts';
import { fakeBook } from './testing/fake-book.ts';
import { measure } from './testing/measure.ts';

// The top is 42 in = 1066.8 mm wide and 84 in = 2133.6 mm long, its grain along x.

const format = (mm: number): string => `${Math.round(mm * 100) / 100} mm`;

function plan(movement: Movement, change: (cells: unknown[]) => unknown[] = (cells) => cells) {
  const rows = tableRows(SAMPLE).map((cells) => change([...cells])) as ReturnType<typeof tableRows>;
  const svg = drawViews(fakeBook([HEADER, ...rows]), {
    views: ['plan', 'front'],
    format,
    movement,
  }).svg;
  const text = svg.plan ?? '';
  const notes = [...text.matchAll(/<text data-size="movement[^"]*"[^>]*>([^<]*)<\/text>/g)];
  return { ...measure(text), notes: notes.map(([, note]) => note), svg };
}

describe('movement of a top', () => {
  it('draws both long edges at both seasons, each by half of the change, ten times as large', () => {
    const { lines } = plan({ dry: -4, humid: 3 });
    // SVG counts down, so the near edge is 0 and the far one -1066.8.
    expect(lines('kb-movement')).toEqual([
      [0, -20, 2133.6, -20],
      [0, -1046.8, 2133.6, -1046.8],
      [0, 15, 2133.6, 15],
      [0, -1081.8, 2133.6, -1081.8],
    ]);
  });

  it('says the real figures, which season is which, and how much is exaggerated', () => {
    expect(plan({ dry: -4, humid: 3 }).notes).toEqual([
      'dry: 4 mm narrower',
      'humid: 3 mm wider',
      'Top: movement shown 10 times as large',
    ]);
    expect(plan({ dry: -4, humid: 3, exaggeration: 1 }).notes.at(-1)).toBe(
      'Top: movement shown as large as it is',
    );
  });

  it('writes its figures its own way where it is told one', () => {
    const fine = plan({ dry: -4, humid: 3, format: (mm) => `about ${mm * 10} tenths` });
    expect(fine.notes.slice(0, 2)).toEqual([
      'dry: about 40 tenths narrower',
      'humid: about 30 tenths wider',
    ]);
  });

  it('exaggerates less where the edges would meet, and says by how much', () => {
    const { notes, lines } = plan({ dry: -200, humid: 10, exaggeration: 20 });
    expect(notes.at(-1)).toBe('Top: movement shown 2 times as large');
    expect(lines('kb-movement')[0]?.[1]).toBe(-200);
  });

  it('moves the ends where the grain runs across', () => {
    const turned = plan({ dry: -4, humid: 3 }, (cells) =>
      cells.map((c) => (c === 'length' ? 'width' : c)),
    );
    expect(turned.lines('kb-movement')[0]).toEqual([20, 0, 20, -1066.8]);
  });

  it('takes the parts it is told, and says so when there are none of that name', () => {
    const apron = plan({ parts: ['apron, LONG '], dry: -1, humid: 1 });
    expect(apron.notes.at(-1)).toMatch(/^Apron, long: movement shown/);
    const none = plan({ parts: ['Lid'], dry: -1, humid: 1 });
    expect(none.notes).toEqual(['No part called Lid is drawn, so its movement is not shown']);
    expect(none.lines('kb-movement')).toEqual([]);
    expect(plan({ parts: ['Leg, left'], dry: -1, humid: 1 }).notes).toEqual([
      'The grain of Leg, left stands upright, so no movement is shown',
    ]);
  });

  it('draws no line for what is not known or nothing', () => {
    expect(plan({ dry: Number.NaN, humid: 1 }).notes).toEqual([
      'The movement of the seasons is not known, so it is not drawn',
    ]);
    expect(plan({ dry: 0, humid: 0 }).notes).toEqual(['Top does not move with the seasons']);
    expect(plan({ dry: 0, humid: 2 }).lines('kb-movement')).toHaveLength(2);
  });

  it('stays within the picture and off the dimensions, and out of the other views', () => {
    const { viewBox, svg } = plan({ dry: -10, humid: 12 });
    const [left = 0, top = 0, width = 0, height = 0] = viewBox;
    const places = [
      ...(svg.plan ?? '').matchAll(/<text data-size="[^"]*" x="([^"]*)" y="([^"]*)"/g),
    ];
    expect(places.length).toBeGreaterThan(4);
    for (const [, x, y] of places) {
      expect(Number(x)).toBeGreaterThan(left);
      expect(Number(x)).toBeLessThan(left + width);
      expect(Number(y)).toBeGreaterThan(top);
      expect(Number(y)).toBeLessThan(top + height);
    }
    expect(svg.front).not.toContain('movement');
  });

  it('leads from under the letters, what hangs below their line included', () => {
    const scene = buildScene(readParts(fakeBook([HEADER, ...tableRows(SAMPLE)])).parts);
    const movement = { dry: -10, humid: 12 };
    const [sheet] = drawSheets(scene, { views: ['plan'], format, movement });
    const { labels = [], leaders = [], arrows = [] } = sheet?.movement ?? {};
    expect(leaders).toHaveLength(2);
    const letters = labels.map(({ box }) => box.top - box.bottom);
    for (const [i, { y1, y2 }] of leaders.entries()) {
      const bottom = labels[i]?.box.bottom ?? 0;
      expect(bottom - y2).toBeGreaterThan((letters[i] ?? 0) / 4);
      // And is longer than its head.
      expect(y2 - y1).toBeGreaterThan(((letters[i] ?? 0) * 7.5) / 11);
    }
    expect(arrows).toHaveLength(2);
  });

  it('is written clear of everything else, whatever the table and its movement', () => {
    const eighths = (min: number, max: number) =>
      fc.integer({ min: min * 8, max: max * 8 }).map((n) => n / 8);
    const sizes = fc.record({
      length: eighths(8, 160),
      width: eighths(8, 60),
      overhangSide: eighths(0, 4),
      overhangEnd: eighths(0, 4),
    });
    const change = fc.double({ min: -30, max: 30, noNaN: true });
    fc.assert(
      fc.property(sizes, change, change, fc.boolean(), (some, dry, humid, turned) => {
        const rows = tableRows({ ...SAMPLE, ...some, supports: 0 }).map((cells) =>
          cells.map((cell) => (turned && cell === 'length' ? 'width' : cell)),
        );
        const scene = buildScene(readParts(fakeBook([HEADER, ...rows])).parts);
        const [sheet] = drawSheets(scene, { views: ['plan'], format, movement: { dry, humid } });
        if (sheet === undefined) throw new Error('a table has a plan');
        const boxes = [...sheet.layout.labels, ...(sheet.movement?.labels ?? [])].map(
          ({ box }) => box,
        );
        expect(sheet.movement?.labels.length).toBeGreaterThan(0);
        // No leader runs through what is written about the other season.
        for (const { x1, y2 } of sheet.movement?.leaders ?? []) {
          const over = (sheet.movement?.labels ?? []).filter(
            ({ box }) => box.left < x1 && x1 < box.right && box.bottom < y2,
          );
          expect(over).toEqual([]);
        }
        for (const [index, a] of boxes.entries()) {
          for (const b of boxes.slice(index + 1)) {
            const apart =
              a.left >= b.right || b.left >= a.right || a.bottom >= b.top || b.bottom >= a.top;
            expect(apart).toBe(true);
          }
          expect(a.left).toBeGreaterThanOrEqual(sheet.frame.left);
          expect(a.right).toBeLessThanOrEqual(sheet.frame.right);
          expect(a.top).toBeLessThanOrEqual(sheet.frame.top);
        }
      }),
      { numRuns: 200 },
    );
  });
});
