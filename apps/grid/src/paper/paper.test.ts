import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fieldSize, type Measured, pageSize, pageStarts } from './paper.ts';

describe('pages', () => {
  it('are the paper on the desk', () => {
    // ISO 216 and ASME Y14.1.
    expect(pageSize({ paper: 'a4', lying: false })).toEqual({ width: 210, height: 297 });
    expect(pageSize({ paper: 'letter', lying: true })).toEqual({ width: 279.4, height: 215.9 });
    expect(fieldSize({ paper: 'a4', lying: false })).toEqual({ width: 184, height: 263 });
  });

  it('break between pieces, keep headings with what they head, and begin anew where asked', () => {
    const rows = Array.from({ length: 6 }, (): Measured => ({ height: 30 }));
    expect(pageStarts(rows, 100)).toEqual([0, 3]);
    const headed: Measured[] = [{ height: 60 }, { height: 20, keep: true }, { height: 30 }];
    expect(pageStarts(headed, 100)).toEqual([0, 1]);
    expect(pageStarts([{ height: 10 }, { height: 10, fresh: true }], 100)).toEqual([0, 1]);
    expect(pageStarts([{ height: 10 }, { height: 300 }, { height: 10 }], 100)).toEqual([0, 1, 2]);
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
