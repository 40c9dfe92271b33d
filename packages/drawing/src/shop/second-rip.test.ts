import { describe, expect, it } from 'vitest';
import { secondRip } from './second-rip.ts';

const format = (mm: number): string => `${mm}`;
const rip = (thickness: number, width: number, from: number) =>
  secondRip({ thickness, width }, from, 3, format);

describe('the second rip of a square piece', () => {
  it('is told where its board is thicker than it by a saw cut or more, and planing where by less', () => {
    expect(rip(80, 80, 90)).toBe('turn it a quarter and rip to 80');
    expect(rip(80, 80, 83)).toBe('turn it a quarter and rip to 80');
    expect(rip(80, 80, 82)).toBe('turn it a quarter and plane to 80');
  });

  it('is not told of what is as thick as its board, nor of what is flat', () => {
    expect(rip(80, 80, 80)).toBeUndefined();
    // Inches turned to mm.
    expect(rip(3.5 * 25.4, 3.5 * 25.4, 88.90000000000001)).toBeUndefined();
    expect(rip(20, 80, 25)).toBeUndefined();
  });
});
