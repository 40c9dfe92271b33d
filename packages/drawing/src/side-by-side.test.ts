import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawViews } from './draw.ts';
import { drawDxf } from './draw-dxf.ts';
import { readParts } from './parts.ts';
import { placeOfKey } from './place-key.ts';
import { buildScene, type Piece } from './scene.ts';
import { partsDrawn } from './side-by-side.ts';
import { type Fake, fakeBook } from './testing/fake-book.ts';
import { measure } from './testing/measure.ts';
import { ownFormat } from './units.ts';

const HEADS = ['part', 'count', 'thickness', 'width', 'length', 'place'];
const format = ownFormat('us', (own) => `${own}`);
const ROWS: readonly Fake[][] = [
  ['Top', 1, 1, 12, 40, null],
  ['Leg', 4, 2, 2, 16, null],
  ['Slat', 30, 0.5, 3, 20, null],
];
const bookOf = (rows: readonly Fake[][]) => fakeBook([HEADS, ...rows.map((row) => [...row])]);
const piecesOf = (rows: readonly Fake[][]): readonly Piece[] =>
  buildScene(partsDrawn(readParts(bookOf(rows)).parts)).pieces;

/** Lines of sizes in a picture. */
const DIMENSIONS = /class="kb-dimension" [^>]*d="M/;

/** Pairs of pieces that share room on the floor, by a comparison of each with each. */
const sharing = (pieces: readonly Piece[]): number =>
  pieces.filter((one, i) =>
    pieces
      .slice(i + 1)
      .some(
        (other) =>
          one.from.x < other.to.x &&
          other.from.x < one.to.x &&
          one.from.y < other.to.y &&
          other.from.y < one.to.y,
      ),
  ).length;

describe('parts of which none has a place', () => {
  it('lie flat on the floor, each piece once, none on another', () => {
    const pieces = piecesOf(ROWS);
    expect(pieces.map(({ part }) => part.name)).toEqual([
      'Top',
      ...Array.from({ length: 4 }, () => 'Leg'),
      ...Array.from({ length: 30 }, () => 'Slat'),
    ]);
    expect(sharing(pieces)).toBe(0);
    for (const { part, from, to } of pieces) {
      expect(from.z).toBe(0);
      expect(to.z).toBeCloseTo(part.thickness, 9);
      expect(to.x - from.x).toBeCloseTo(part.length, 9);
      expect(to.y - from.y).toBeCloseTo(part.width, 9);
    }
  });

  it('never share room, whatever their sizes and counts', () => {
    const row = fc.tuple(
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 60 }),
      fc.integer({ min: 1, max: 120 }),
    );
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 12 }), (all) => {
        const pieces = piecesOf(
          all.map(([count, width, length], i) => [`P${i}`, count, 1, width, length, null]),
        );
        expect(pieces).toHaveLength(all.reduce((sum, [count]) => sum + count, 0));
        expect(sharing(pieces)).toBe(0);
      }),
      { numRuns: 60 },
    );
  });

  it('are drawn where that is asked for, with a sentence that says so and no size over all', () => {
    const options = { views: ['plan'], format, sideBySide: true, whole: {} } as const;
    const drawing = drawViews(bookOf(ROWS), options);
    expect(drawing.says).toMatch(/^The parts lie side by side: none has a place yet\./);
    expect(drawing.extents).toBeUndefined();
    const { rects } = measure(drawing.svg.plan ?? '');
    const rows = rects.map(({ part }) => placeOfKey(part)?.row);
    expect([1, 2, 3].map((row) => rows.filter((one) => one === row).length)).toEqual([1, 4, 30]);
    expect(drawing.svg.plan).not.toMatch(DIMENSIONS);
    expect(drawing.whole).toContain('<desc>Parts side by side. Top: 1 by 12 by 40. 4 of Leg: ');
    expect(drawing.whole).not.toMatch(/over all/i);
    expect(drawing.svg.plan).not.toMatch(/over all|Sizes shown/i);
    const plain = drawViews(bookOf(ROWS), { views: ['plan'], format });
    expect(plain.svg).toEqual({});
    expect(plain.says).toMatch(/^No part has a place yet\./);
  });

  it('are in the file for drafting programs', () => {
    const { dxf = '', says } = drawDxf(bookOf(ROWS), { views: ['plan'], format });
    expect(dxf).toContain('ENTITIES');
    expect(says).toMatch(/^The parts lie side by side/);
  });

  it('stay out of the drawing as soon as one of them has a place', () => {
    const heads = [...HEADS, 'x', 'y', 'z'];
    const book = fakeBook([heads, ['Top', 1, 1, 12, 40, null, 0, 0, 0], ...ROWS.slice(1)]);
    const { parts } = readParts(book);
    expect(partsDrawn(parts)).toBe(parts);
    const { says, svg } = drawViews(book, { views: ['plan'], format, sideBySide: true });
    expect(says).toBeUndefined();
    // The sign by which the test above knows that no sizes are drawn.
    expect(svg.plan).toMatch(DIMENSIONS);
  });
});
