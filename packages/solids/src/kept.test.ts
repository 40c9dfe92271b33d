import { describe, expect, it } from 'vitest';
import { ShapedPieces } from './kept.ts';

const box = (length: number) =>
  ({ blank: { kind: 'box', length, width: 60, thickness: 40 } }) as const;

describe('pieces that are remembered', () => {
  it('are the same for equal shapes, however they are written', () => {
    const pieces = new ShapedPieces(10);
    const first = pieces.of(box(600));
    expect(pieces.of({ blank: { thickness: 40, width: 60, length: 600, kind: 'box' } })).toBe(
      first,
    );
    expect(pieces.of(box(601))).not.toBe(first);
  });

  it('tell a size that is no number from one that is left out', () => {
    const pieces = new ShapedPieces(10);
    const chamfer = { kind: 'chamfer', edge: ['top', 'front'], width: 5 } as const;
    expect(pieces.of({ ...box(600), cuts: [chamfer] }).ok).toBe(true);
    expect(pieces.of({ ...box(600), cuts: [{ ...chamfer, height: Number.NaN }] }).ok).toBe(false);
    expect(pieces.of({ ...box(600), cuts: [chamfer] }).ok).toBe(true);
  });

  it('are as many as asked for, and those asked for last', () => {
    const pieces = new ShapedPieces(2);
    const [first, second] = [pieces.of(box(1)), pieces.of(box(2))];
    pieces.of(box(1));
    pieces.of(box(3));
    expect(pieces.of(box(1))).toBe(first);
    expect(pieces.of(box(2))).not.toBe(second);
  });
});
