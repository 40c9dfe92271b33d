import { describe, expect, it } from 'vitest';
import { pairedRows } from './pairs.ts';

/** All pairs of choices of different lists, by trying each. */
const pairsOf = (counts: readonly number[]): Set<string> => {
  const all = new Set<string>();
  for (let i = 0; i < counts.length; i += 1) {
    for (let j = i + 1; j < counts.length; j += 1) {
      for (let a = 1; a <= (counts[i] ?? 0); a += 1) {
        for (let b = 1; b <= (counts[j] ?? 0); b += 1) all.add(`${i}.${a} ${j}.${b}`);
      }
    }
  }
  return all;
};

describe('rows of choices', () => {
  it.each([
    [[], 0],
    [[3], 0],
    [[1, 1], 1],
    [[3, 2], 6],
    [[3, 3, 2, 2, 1], 11],
    [[7, 7], 49],
    [[3, 3, 1, 1, 3, 2, 1, 4, 2, 1], 18],
  ] as const)('of %j meet any two of different lists, in no more than %i', (counts, most) => {
    const rows = pairedRows(counts);
    const met = new Set(
      rows.flatMap((row) =>
        row.flatMap((a, i) =>
          row.flatMap((b, j) => (i < j && a > 0 && b > 0 ? [`${i}.${a} ${j}.${b}`] : [])),
        ),
      ),
    );
    expect(met).toEqual(pairsOf(counts));
    expect(rows.length).toBeLessThanOrEqual(most);
    for (const row of rows) {
      expect(row).toHaveLength(counts.length);
      expect(row.every((choice, i) => choice >= 0 && choice <= (counts[i] ?? 0))).toBe(true);
    }
  });
});
