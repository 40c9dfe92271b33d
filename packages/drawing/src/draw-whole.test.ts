import { describe, expect, it } from 'vitest';
import { drawViews } from './draw.ts';
import { drawingForFiles, drawWhole, FILE_PANEL, shadedForPrint } from './draw-whole.ts';
import { readParts } from './parts.ts';
import { placeOfKey } from './place-key.ts';
import { buildScene } from './scene.ts';
import { sceneOf } from './testing/boxes.ts';
import { HEADER, SAMPLE, tableRows } from './testing/dining-table.ts';
import { fakeBook } from './testing/fake-book.ts';
import { ownFormat } from './units.ts';

const format = ownFormat('us', (own) => `${own}`);
const book = () => fakeBook([HEADER, ...tableRows(SAMPLE)]);
const scene = buildScene(readParts(book()).parts);
const whole = drawWhole(scene, { format }) ?? '';
const apart = drawWhole(scene, { format, exploded: true }) ?? '';

const places = (svg: string): (number | undefined)[] =>
  [...svg.matchAll(/<g class="kb-piece [^"]*" data-part="([^"]*)"/g)].map(
    ([, key = '']) => placeOfKey(key)?.row,
  );
const viewBox = (svg: string): number[] =>
  (/viewBox="([^"]*)"/.exec(svg)?.[1] ?? '').split(' ').map(Number);

describe('the furniture in 3D', () => {
  it('leads from what is seen of each piece back to its row', () => {
    // From so low that the aprons show under the top; the cross supports stay behind the near one.
    expect(new Set(places(whole))).toEqual(new Set([1, 2, 3, 4, 5]));
    expect(whole).toMatch(
      /<g class="kb-piece kb-wood-pale" data-part="s1:1:0" data-copy="0"><title>Top, /,
    );
  });

  it('shows every piece exploded, with the ways of the pieces as chain lines', () => {
    expect(places(apart)).toHaveLength(scene.pieces.length);
    expect(apart).toContain('<path class="kb-trace"');
    expect(whole).not.toContain('kb-trace');
  });

  it('says what it is, and that it is not to scale', () => {
    expect(whole).toContain('<title>3D</title>');
    expect(whole).toContain('>3D, not to scale</text>');
    expect(apart).toContain('>Exploded, not to scale</text>');
  });

  it('says which parts cannot be seen from there, where it is asked and as far as there is room', () => {
    const caption = (options: { width: number; exploded?: boolean; unseen?: boolean }): string => {
      const { width, exploded = false, unseen = true } = options;
      const panel = { width, height: 300 };
      const svg = drawWhole(scene, { format, unseen, exploded, panel }) ?? '';
      return /font-size="[^"]*">\n?<text[^>]*>([^<]*)</.exec(svg)?.[1] ?? '';
    };
    expect(caption({ width: 420 })).toBe('3D, not to scale. Not seen from here: Cross support');
    expect(caption({ width: 320 })).toBe('3D, not to scale. Not seen from here: 1 part');
    expect(caption({ width: 120 })).toBe('3D, not to scale');
    expect(caption({ width: 420, exploded: true })).toBe('Exploded, not to scale');
    expect(caption({ width: 420, unseen: false })).toBe('3D, not to scale');
  });

  it('is told in words: over all, then each part with its count and sizes', () => {
    const [, words = ''] = /<desc>([^<]*)<\/desc>/.exec(whole) ?? [];
    expect(words).toBe(
      '84 long, 42 wide and 30 high over all. Top: 1.5 by 42 by 84. 2 of Leg, left: 2.5 by 2.5 by 28.5. ' +
        '2 of Leg, right: 2.5 by 2.5 by 28.5. 2 of Apron, long: 0.75 by 4.25 by 61. ' +
        '2 of Apron, short: 0.75 by 4.25 by 29. 3 of Cross support: 0.75 by 1.875 by 32.',
    );
  });

  it('fills its panel, whole or exploded, four fifths of one side at the least', () => {
    for (const steady of [false, true]) {
      for (const exploded of [false, true]) {
        for (const panel of [
          { width: 384, height: 240 },
          { width: 900, height: 600 },
        ]) {
          const svg = drawWhole(scene, { format, exploded, steady, panel }) ?? '';
          const [, , width = 0, height = 0] = viewBox(svg);
          expect(width / height).toBeCloseTo(panel.width / panel.height, 2);
          const [, d = ''] = /class="kb-outline"[^>]* d="([^"]*)"/.exec(svg) ?? [];
          const ends = [
            ...d.matchAll(/M(-?[\d.]+) (-?[\d.]+)(?:L(-?[\d.]+) (-?[\d.]+)|V(-?[\d.]+))/g),
          ];
          const xs = ends.flatMap(([, x, , x2 = x]) => [Number(x), Number(x2)]);
          const ys = ends.flatMap(([, , y, , y2, v]) => [Number(y), Number(y2 ?? v)]);
          const across = (Math.max(...xs) - Math.min(...xs)) / width;
          const up = (Math.max(...ys) - Math.min(...ys)) / height;
          expect(Math.max(across, up)).toBeGreaterThan(steady ? 0.7 : 0.8);
        }
      }
    }
  });

  it('draws no line of what is hidden', () => {
    expect(whole).not.toContain('kb-hidden');
  });

  it('is the same text every time, without colours of its own or numbers that are none', () => {
    expect(drawWhole(scene, { format })).toBe(whole);
    for (const svg of [whole, apart]) {
      const painted = [...svg.matchAll(/(?:fill|stroke)="([^"]*)"/g)].map(([, value]) => value);
      expect(new Set(painted)).toEqual(new Set(['currentColor', 'none']));
      expect(svg).not.toMatch(/NaN|Infinity|undefined|#[0-9a-f]{3}/);
    }
  });

  it('carries its colours in a file of its own, which follows no page: tints where it is for print', () => {
    const screen = drawWhole(scene, { format, standalone: true }) ?? '';
    const print = shadedForPrint(book(), { format, standalone: true }) ?? '';
    const faces = (svg: string): Set<string> =>
      new Set([...svg.matchAll(/class="kb-face (kb-shade-\d)"/g)].map(([, shade = '']) => shade));
    for (const svg of [screen, print]) {
      expect(faces(svg).size).toBe(3);
      for (const shade of faces(svg)) {
        expect(svg).toMatch(new RegExp(`\\.kb-wood-pale \\.${shade} \\{ fill: #[0-9a-f]{6};`));
      }
      expect(svg).not.toMatch(/light-dark|color-mix|var\(/);
    }
    expect(print).toContain('class="kb-drawing kb-parallel kb-print"');
    expect(shadedForPrint(fakeBook([]), { format })).toBeUndefined();
  });

  it('keeps everything in the picture', () => {
    for (const svg of [whole, apart]) {
      const [left = 0, top = 0, width = 0, height = 0] = viewBox(svg);
      const places = [...svg.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)];
      expect(places.length).toBeGreaterThan(50);
      for (const [, x, y] of places) {
        expect(Number(x)).toBeGreaterThanOrEqual(left);
        expect(Number(x)).toBeLessThanOrEqual(left + width);
        expect(Number(y)).toBeGreaterThanOrEqual(top);
        expect(Number(y)).toBeLessThanOrEqual(top + height);
      }
    }
  });

  it('holds its scale while it is turned, if asked to', () => {
    const sizes = [0, 37, 90, 211].map((azimuth) => {
      const svg = drawWhole(scene, { format, eye: { azimuth, elevation: 20 }, steady: true });
      return viewBox(svg ?? '').slice(2);
    });
    for (const size of sizes) expect(size).toEqual(sizes[0]);
  });

  it('comes with the other views where it is asked for', () => {
    const options = { views: ['front'], format } as const;
    expect(drawViews(book(), { ...options, whole: {}, exploded: {} })).toMatchObject({
      whole,
      exploded: apart,
    });
    expect(Object.keys(drawViews(book(), options))).toEqual(['svg', 'problems', 'extents']);
  });

  it('is nothing of nothing', () => {
    expect(drawWhole(sceneOf([]), { format })).toBeUndefined();
    expect(drawWhole(sceneOf([]), { format, exploded: true })).toBeUndefined();
  });
});

describe('the drawing for a file of another program', () => {
  const along = (rows: Parameters<typeof fakeBook>[0]): string | undefined =>
    drawingForFiles({ ...fakeBook(rows), currency: 'USD' });

  it('carries its styles, in tints for print, and is as wide to high as was said', () => {
    const svg = along([HEADER, ...tableRows(SAMPLE)]) ?? '';
    expect(svg).toMatch(/^<svg xmlns="[^"]*" class="[^"]*\bkb-print\b/);
    expect(svg).toContain('<style>');
    const [, , width = 0, height = 0] = viewBox(svg);
    expect(width / height).toBeCloseTo(FILE_PANEL.width / FILE_PANEL.height, 3);
  });

  it('is none where there is nothing to draw, and where a row cannot be read', () => {
    expect(along([])).toBeUndefined();
    const [first = [], ...others] = tableRows(SAMPLE);
    const bad = first.map((cell) => (cell === SAMPLE.length ? 'long' : cell));
    expect(along([HEADER, bad, ...others])).toBeUndefined();
  });
});
