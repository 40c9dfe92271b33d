import { describe, expect, it } from 'vitest';
import type { CutItem } from './cut-list.ts';
import { nearMisses } from './near-miss.ts';
import { buyingPlan } from './plan.ts';
import type { StockItem } from './stock.ts';

/** Boards of 96 and pieces of the lengths given, invented; sizes in inches, as they are written. */
const inch = 25.4;
const at = { sheet: 's1', row: 1, column: 0 };
const format = (mm: number): string => String(Math.round((mm / inch) * 1e4) / 1e4);

type Lengths = readonly (readonly [length: number, count: number])[];

const misses = (kerf: number, ...lengths: Lengths) => trimmed(0, kerf, ...lengths);

function trimmed(ends: number, kerf: number, ...lengths: Lengths) {
  const items = lengths.map(
    ([length, count], i): CutItem => ({
      name: `Piece ${i}`,
      at,
      count,
      thickness: inch,
      width: 4 * inch,
      length: length * inch,
      material: '',
    }),
  );
  const stock: StockItem = {
    at,
    name: '1x4',
    material: '',
    thickness: inch,
    width: 4 * inch,
    length: 96 * inch,
    price: 10,
  };
  const { groups } = buyingPlan(items, [stock], {
    kerf: kerf * inch,
    endTrim: ends * inch,
    format,
  });
  return groups.flatMap((group) => nearMisses(group, { mm: kerf * inch }, format));
}

describe('why there is one more board', () => {
  it('is said where lengths that add up to a board leave no room for the saw', () => {
    expect(misses(0.125, [48, 2])).toEqual(['Two of 48 do not fit on 96: the saw takes 0.125.']);
    expect(misses(0.125, [32, 3])).toEqual(['Three of 32 do not fit on 96: the saw takes 0.25.']);
    expect(misses(0.125, [50, 1], [46, 1])).toEqual([
      '50 and 46 do not fit on 96: the saw takes 0.125.',
    ]);
  });

  it('is said where they are too long by a hair', () => {
    expect(misses(0.125, [48, 1], [48.05, 1])).toEqual([
      '48.05 and 48 do not fit on 96: they take 96.175 with 0.125 for the saw.',
    ]);
    expect(misses(0, [48.02, 2])).toEqual(['Two of 48.02 do not fit on 96: they take 96.04.']);
  });

  it('is said of what is left of a board once its ends are trimmed', () => {
    expect(trimmed(2, 0.125, [46, 2])).toEqual([
      'Two of 46 do not fit on the 92 that trimming leaves of 96: the saw takes 0.125.',
    ]);
    // On the whole board they would fit, and on what is left of it they are short by far.
    expect(trimmed(2, 0.125, [47.9, 2])).toEqual([]);
  });

  it('is not said where all fits, or where it is a board short by far', () => {
    expect(misses(0.125, [47.9, 2])).toEqual([]);
    expect(misses(0, [48, 2])).toEqual([]);
    expect(misses(0.125, [60, 3])).toEqual([]);
    expect(misses(0.125, [48.5, 2])).toEqual([]);
  });
});
