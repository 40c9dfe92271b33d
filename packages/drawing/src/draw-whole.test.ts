import { describe, expect, it } from 'vitest';
import { drawViews } from './draw.ts';
import { drawWhole } from './draw-whole.ts';
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
  [...svg.matchAll(/<g class="kb-piece" data-part="([^"]*)"/g)].map(
    ([, key = '']) => placeOfKey(key)?.row,
  );
const viewBox = (svg: string): number[] =>
  (/viewBox="([^"]*)"/.exec(svg)?.[1] ?? '').split(' ').map(Number);

describe('the whole in parallel projection', () => {
  it('leads from what is seen of each piece back to its row', () => {
    // From the right front and above, the top and the near apron hide the cross supports. Of the short
    // aprons a corner shows behind the near leg: the line of sight passes the front edge of the top.
    expect(new Set(places(whole))).toEqual(new Set([1, 2, 3, 4, 5]));
    expect(whole).toMatch(/<g class="kb-piece" data-part="s1:1:0" data-copy="0"><title>Top, /);
  });

  it('shows every row when it is moved apart, with the ways of the pieces as chain lines', () => {
    expect(new Set(places(apart))).toEqual(new Set([1, 2, 3, 4, 5, 6]));
    expect(apart).toContain('<path class="kb-trace"');
    expect(whole).not.toContain('kb-trace');
  });

  it('draws no line of what is hidden', () => {
    expect(whole).not.toContain('kb-hidden');
  });

  it('is the same text every time, without colours of its own or numbers that are none', () => {
    expect(drawWhole(scene, { format })).toBe(whole);
    for (const svg of [whole, apart]) {
      const painted = [...svg.matchAll(/(?:fill|stroke)="([^"]*)"/g)].map(([, value]) => value);
      expect(new Set(painted)).toEqual(new Set(['currentColor', 'none']));
      expect(svg).not.toMatch(/NaN|Infinity|undefined/);
    }
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
