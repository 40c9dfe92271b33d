import { describe, expect, it } from 'vitest';
import { linesOf } from './words-measure.ts';

describe('lines of wrapped words', () => {
  // Every letter a pixel wide: a room of 10 is 10 letters.
  const lines = (text: string, room = 10): number => linesOf(text, room, (one) => one.length);

  it('break after spaces, which need no room at the end of a line', () => {
    expect(lines('')).toBe(1);
    expect(lines('glue it up')).toBe(1);
    expect(lines('glue it up ')).toBe(1);
    expect(lines('glue it all up')).toBe(2);
    expect(lines('dovetailed drawer boxes')).toBe(3);
  });

  it('break after a hyphen between letters, and not within a number', () => {
    expect(lines('white quarter-sawn')).toBe(3);
    expect(lines('a quarter-sawn')).toBe(2);
    expect(lines('board 5-1/2')).toBe(2);
  });

  it('break within a word that is longer than a line, once it has a line of its own', () => {
    expect(lines('x'.repeat(25))).toBe(3);
    expect(lines(`glue ${'x'.repeat(25)}`)).toBe(4);
    expect(lines(`${'x'.repeat(25)} glue`)).toBe(3);
    expect(lines(`${'x'.repeat(25)} glued`)).toBe(4);
    expect(lines('xx', 0)).toBe(2);
  });

  it('are where the text has lines', () => {
    expect(lines('one\n\ntwo')).toBe(3);
    expect(lines('glue it all up\ntwo')).toBe(3);
  });
});
