import { describe, expect, it } from 'vitest';
import { mergeSpans, subtractSpans } from './spans.ts';

describe('spans of a line', () => {
  it('merges what overlaps or touches, in order, and drops what has no length', () => {
    const given = [
      [5, 7],
      [0, 2],
      [2, 3],
      [6, 9],
      [4, 4],
    ] as const;
    expect(mergeSpans(given)).toEqual([
      [0, 3],
      [5, 9],
    ]);
  });

  it('takes away the middle, an end, all, or nothing', () => {
    expect(subtractSpans([[0, 10]], [[3, 4]])).toEqual([
      [0, 3],
      [4, 10],
    ]);
    expect(
      subtractSpans(
        [[0, 10]],
        [
          [-5, 1],
          [9, 12],
        ],
      ),
    ).toEqual([[1, 9]]);
    expect(subtractSpans([[0, 10]], [[0, 10]])).toEqual([]);
    expect(subtractSpans([[0, 10]], [[10, 11]])).toEqual([[0, 10]]);
  });
});
