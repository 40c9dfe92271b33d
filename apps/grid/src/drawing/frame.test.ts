import { describe, expect, it } from 'vitest';
import { framed } from './frame.ts';

const svg = (box: string): string => `<svg class="kb-drawing" viewBox="${box}"><path/></svg>`;
const boxOf = (text: string | undefined): number[] =>
  (/viewBox="([^"]+)"/.exec(text ?? '')?.[1] ?? '').split(' ').map(Number);

describe('views beside each other', () => {
  const panel = { width: 200, height: 100 };
  const [high, flat] = framed([svg('0 0 2000 1200'), svg('-50 10 2000 300')], panel, true);

  it('are shown at one scale, however much is written around one of them', () => {
    expect(boxOf(high).slice(2)).toEqual([2400, 1200]);
    expect(boxOf(flat).slice(2)).toEqual([2400, 1200]);
  });

  it('stand on one line, in the middle of their width', () => {
    expect(boxOf(high).slice(0, 2)).toEqual([-200, 0]);
    // The lower edge of what is drawn, at 310, is that of its frame.
    expect(boxOf(flat).slice(0, 2)).toEqual([-250, -890]);
  });

  it('are in the middle of all of it where there is one alone', () => {
    const [alone] = framed([svg('0 0 2000 500')], panel, false);
    expect(boxOf(alone)).toEqual([0, -250, 2000, 1000]);
  });
});
