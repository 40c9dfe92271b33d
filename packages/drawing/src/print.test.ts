import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawViews } from './draw.ts';
import { HEADER, SAMPLE, scaled, tableRows } from './testing/dining-table.ts';
import { fakeBook } from './testing/fake-book.ts';
import { measure } from './testing/measure.ts';

const format = (mm: number): string => `${Math.round(mm)}`;
/** Room for one view on an upright A4 page with two of them, mm (ISO 216: 210 by 297). */
const HALF_A4 = { width: 180, height: 125 };

function printed(by: number, page = HALF_A4, units: 'us' | 'metric' = 'metric') {
  const rows = tableRows(scaled(SAMPLE, units === 'us' ? by : 25.4 * by));
  const svg = drawViews(fakeBook([HEADER, ...rows], units), {
    views: ['plan', 'front'],
    format,
    page,
  }).svg;
  return [svg.plan ?? '', svg.front ?? ''].map((text) => {
    const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(text) ?? [];
    const [, said] = /, ([^,<]+)<\/text>/.exec(text) ?? [];
    return { text, width: Number(width), height: Number(height), said, ...measure(text) };
  });
}

describe('a view for print', () => {
  it('is as large as its scale says: a table of 2133.6 mm at 1 : 20 is 106.68 mm', () => {
    for (const { said, width, viewBox, rects } of printed(1)) {
      expect(said).toBe('1 : 20');
      const perMm = width / (viewBox[2] ?? Number.NaN);
      expect((rects[rects.length - 1]?.width ?? 0) * perMm).toBeGreaterThan(0);
      const top = rects.find((rect) => rect.width > 2000);
      expect((top?.width ?? 0) * perMm).toBeCloseTo(106.68, 2);
    }
  });

  it('has texts of 3.5 mm, whatever the scale', () => {
    for (const by of [0.01, 0.2, 1, 7]) {
      for (const { fontSize, width, viewBox } of printed(by)) {
        expect((fontSize * width) / (viewBox[2] ?? Number.NaN)).toBeCloseTo(3.52, 1);
      }
    }
  });

  it('fits its room at a scale of the standard, and takes a good part of it', () => {
    const series = [50, 20, 10, 5, 2, 1].map((n) => `${n} : 1`);
    series.push(...[2, 5, 10, 20, 50, 100, 200, 500, 1000].map((n) => `1 : ${n}`));
    fc.assert(
      fc.property(fc.double({ min: 0.005, max: 30, noNaN: true }), (by) => {
        for (const { said = '', width, height } of printed(by)) {
          expect(series).toContain(said);
          expect(width).toBeLessThanOrEqual(HALF_A4.width + 0.01);
          expect(height).toBeLessThanOrEqual(HALF_A4.height + 0.01);
        }
        // Scales are 2 to 2.5 times apart, and what is written around takes up to half of the room.
        const [plan, front] = printed(by);
        const share = Math.max(
          ...[plan, front].flatMap((view) => {
            const perMm = (view?.width ?? 0) / (view?.viewBox[2] ?? 1);
            const top = Math.max(...(view?.rects.map((rect) => rect.width) ?? []));
            const tall = Math.max(...(view?.rects.map((rect) => rect.height) ?? []));
            return [(top * perMm) / HALF_A4.width, (tall * perMm) / HALF_A4.height];
          }),
        );
        expect(share).toBeGreaterThan(0.2);
      }),
      { numRuns: 60 },
    );
  });

  it('in inches has a scale that an American ruler has, and is as large as that says', () => {
    const perFoot = ['3', '1 1/2', '1', '3/4', '1/2', '3/8', '1/4', '3/16', '1/8', '1/16'];
    const known = new Map([
      ['full size', 1],
      ['half size', 2],
      ...perFoot.map((inches): [string, number] => {
        const [whole, over, under = 1] = inches.split(/[ /]/).map(Number);
        const size = inches.includes(' ')
          ? (whole ?? 0) + (over ?? 0) / under
          : (whole ?? 0) / (over ?? 1);
        return [`${inches} in = 1 ft`, 12 / size];
      }),
    ]);
    const seen = new Set<string>();
    for (let by = 0.05; by < 12; by *= 1.15) {
      for (const { said = '', width, viewBox } of printed(by, HALF_A4, 'us')) {
        seen.add(said);
        expect([...known.keys()], `${by}`).toContain(said);
        expect((viewBox[2] ?? Number.NaN) / width).toBeCloseTo(known.get(said) ?? Number.NaN, 3);
      }
    }
    expect([...seen]).toEqual(expect.arrayContaining(['1 1/2 in = 1 ft', '1/2 in = 1 ft']));
  });

  it('keeps the size of its panel on a screen', () => {
    const rows = tableRows(SAMPLE);
    const svg = drawViews(fakeBook([HEADER, ...rows]), { views: ['plan'], format }).svg.plan ?? '';
    expect(svg).not.toMatch(/<svg[^>]* width=/);
  });
});
