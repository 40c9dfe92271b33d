import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fieldSize, type Measured, pageSize, pageStarts, TALLEST } from './paper.ts';

describe('pages', () => {
  it('are the paper on the desk', () => {
    // ISO 216 and ASME Y14.1.
    expect(pageSize({ paper: 'a4', landscape: false })).toEqual({ width: 210, height: 297 });
    expect(pageSize({ paper: 'letter', landscape: true })).toEqual({ width: 279.4, height: 215.9 });
    expect(fieldSize({ paper: 'a4', landscape: false })).toEqual({ width: 184, height: 250 });
  });

  it('break between pieces and keep headings with what they head', () => {
    const rows = Array.from({ length: 6 }, (): Measured => ({ height: 30 }));
    expect(pageStarts(rows, 100)).toEqual([0, 3]);
    const headed: Measured[] = [{ height: 60 }, { height: 20, keep: true }, { height: 30 }];
    expect(pageStarts(headed, 100)).toEqual([0, 1]);
    expect(pageStarts([{ height: 10 }, { height: 300 }, { height: 10 }], 100)).toEqual([0, 1, 2]);
    // What is to stay together and is more than a page holds is broken where the page is full.
    const long = [40, 40, 40, 40].map((height): Measured => ({ height, keep: true }));
    expect(pageStarts([{ height: 50 }, ...long], 100)).toEqual([0, 1, 3]);
  });

  it('have rows that go together on one of them, unless one before would be left nearly empty', () => {
    const row = { height: 12, together: true };
    const rows = [{ height: 12, keep: true }, ...Array(5).fill(row), { height: 12 }];
    expect(pageStarts([{ height: 50 }, ...rows, { height: 10 }], 100)).toEqual([0, 1]);
    // A second page of which 23 are used: the rows begin there and go on on the next one.
    const used = [{ height: 90 }, { height: 23 }];
    expect(pageStarts([...used, ...rows, { height: 10 }], 100)).toEqual([0, 1, 8]);
    expect(pageStarts([{ height: 90 }, { height: 45 }, ...rows], 100)).toEqual([0, 1, 2]);
  });

  it('are shared by parts that fit, and no part that fits on one is broken where three fifths of a page are used', () => {
    const part = (...heights: number[]): Measured[] =>
      heights.map((height, i) => ({ height, ...(i === 0 ? { section: true } : {}) }));
    expect(pageStarts([...part(20, 20), ...part(30, 30)], 100)).toEqual([0]);
    expect(pageStarts([...part(30, 30), ...part(30, 30)], 100)).toEqual([0, 2]);
    // Half a page would be left empty for what has room to begin on it.
    expect(pageStarts([...part(25, 25), ...part(30, 30)], 100)).toEqual([0, 3]);
    // A third of the page alone is no reason, and what is longer than a page is broken anyway.
    expect(pageStarts([...part(30), ...part(40, 40)], 100)).toEqual([0, 2]);
    expect(pageStarts([...part(60), ...part(30, 30, 30, 30)], 100)).toEqual([0, 2]);
  });

  it('are a third full at the least but for the last, where no piece is higher than the highest allowed', () => {
    const piece = fc.record({
      height: fc.integer({ min: 1, max: 100 * TALLEST }),
      section: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
        const starts = pageStarts(pieces, 100);
        for (const [page, from] of starts.slice(0, -1).entries()) {
          const on = pieces.slice(from, starts[page + 1]);
          expect(on.reduce((sum, { height }) => sum + height, 0)).toBeGreaterThan(100 / 3);
        }
      }),
    );
  });

  it('count the head of a table that is repeated', () => {
    const rows = Array.from({ length: 8 }, (): Measured => ({ height: 25, repeats: 30 }));
    // 30 for the head and two rows of 25: a third would be 105.
    expect(pageStarts(rows, 100)).toEqual([0, 2, 4, 6]);
  });

  it('hold every piece once and overflow only with one that is too tall', () => {
    const piece = fc.record({ height: fc.integer({ min: 1, max: 140 }), keep: fc.boolean() });
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
        const starts = pageStarts(pieces, 100);
        expect(starts[0] ?? 0).toBe(0);
        expect([...starts]).toEqual([...new Set(starts)].sort((a, b) => a - b));
        for (const [page, from] of starts.entries()) {
          const on = pieces.slice(from, starts[page + 1] ?? pieces.length);
          const height = on.reduce((sum, one) => sum + one.height, 0);
          const groups = on.filter(({ keep }) => !keep).length;
          if (height > 100) expect(groups).toBeLessThanOrEqual(1);
        }
      }),
    );
  });
});
