import { describe, expect, it } from 'vitest';
import { overAllOf, sizeWords } from './size-words.ts';

type Book = Parameters<typeof overAllOf>[0];

/** A workbook with nothing but named lengths, in its own units. */
const bookOf = (names: Readonly<Record<string, number>>, units: 'us' | 'metric' = 'us'): Book =>
  ({
    units,
    named: (name: string) =>
      names[name] === undefined ? undefined : { value: { kind: 'number', number: names[name] } },
  }) as unknown as Book;

const nouns = (x: number, y: number, z: number, names: Readonly<Record<string, number>> = {}) => {
  const { along, across, up } = sizeWords(bookOf(names), { x, y, z });
  return [along.noun, across.noun, up.noun];
};

describe('the sizes of a piece of furniture', () => {
  it('are called as one calls them', () => {
    expect(nouns(1829, 914, 749, { top_width: 36 })).toEqual(['length', 'width', 'height']);
    expect(nouns(762, 590, 876, { case_depth: 23.25 })).toEqual(['width', 'depth', 'height']);
    expect(nouns(1200, 350, 450)).toEqual(['length', 'depth', 'height']);
    expect(nouns(1219, 1219, 749, { top_diameter: 48 })).toEqual(['across', 'across', 'height']);
    expect(nouns(597, 19, 724)).toEqual(['width', 'thickness', 'height']);
  });

  it('are those of a panel where it lies flat: nobody says how high a table top is', () => {
    expect(nouns(1829, 914, 32, { top_width: 36 })).toEqual(['length', 'width', 'thickness']);
    expect(nouns(914, 610, 19)).toEqual(['length', 'width', 'thickness']);
    expect(nouns(25.4, 25.4, 3.2)).toEqual(['length', 'width', 'thickness']);
    expect(nouns(6096, 3048, 101.6)).toEqual(['length', 'width', 'thickness']);
    expect(nouns(1219, 1219, 32, { top_diameter: 48 })).toEqual(['across', 'across', 'thickness']);
  });
});

describe('what a case measures over all', () => {
  const drawn = { from: { x: 0, y: 0, z: 0 }, to: { x: 762, y: 589.75625, z: 876.3 } };

  it('has the banding of its front edges, which no part is cut to', () => {
    const banded = overAllOf(bookOf({ case_depth: 23.25, band_thickness: 1 / 32 }), drawn);
    expect(banded.y).toBeCloseTo(23.25 * 25.4, 9);
    const metric = overAllOf(bookOf({ case_depth: 591, band_thickness: 0.5 }, 'metric'), drawn);
    expect(metric.y).toBeCloseTo(590.25625, 9);
    expect([banded.x, banded.z]).toEqual([762, 876.3]);
  });

  it('is what is drawn where there is none', () => {
    expect(overAllOf(bookOf({ case_depth: 23.25 }), drawn).y).toBe(589.75625);
    expect(overAllOf(bookOf({ band_thickness: 1 / 32 }), drawn).y).toBe(589.75625);
  });
});
