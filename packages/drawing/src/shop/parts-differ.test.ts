import { describe, expect, it } from 'vitest';
import type { CutItem } from './cut-list.ts';
import { partsDiffer } from './parts-differ.ts';

const item = (name: string, count: number, length: number, material = 'oak'): CutItem => ({
  name,
  at: { sheet: 's1', row: 1, column: 0 },
  count,
  thickness: 20,
  width: 90,
  length,
  material,
});

describe('cut lists side by side', () => {
  it('differ in what is written otherwise, comes or goes, line by line of one name', () => {
    const before = [
      item('Leg', 4, 700),
      item('Rail', 2, 500),
      item('Rail', 2, 300),
      item('Peg', 8, 40),
    ];
    const after = [
      item('Leg', 4, 700.0001),
      item('rail', 2, 500),
      item('Rail', 3, 320, 'ash'),
      item('Shelf', 1, 480, ''),
    ];
    expect(partsDiffer(before, after, (mm) => mm.toFixed(0))).toEqual([
      { name: 'Rail', before: '2 of 20 × 90 × 300, oak', after: '3 of 20 × 90 × 320, ash' },
      { name: 'Peg', before: '8 of 20 × 90 × 40, oak' },
      { name: 'Shelf', after: '1 of 20 × 90 × 480' },
    ]);
    expect(partsDiffer(before, before, String)).toEqual([]);
  });
});
