import { describe, expect, it } from 'vitest';
import { scaleBar } from './scale-bar.ts';
import { ownFormat } from './units.ts';

describe('the scale bar', () => {
  it.each([
    [30, 'us', 25.4, '1 in'],
    [304.7, 'us', 152.4, '6 in'],
    [304.8, 'us', 304.8, '1 ft'],
    [1600, 'us', 1524, '5 ft'],
    [9.9, 'metric', 5, '5 mm'],
    [999, 'metric', 500, '500 mm'],
    [2100, 'metric', 2000, '2 m'],
  ] as const)('of at most %d mm in %s is %d mm: %s', (most, units, mm, text) => {
    const bar = scaleBar(most, units);
    expect(bar.mm).toBeCloseTo(mm, 9);
    expect(bar.text).toBe(text);
  });
});

describe('writing lengths of a drawing', () => {
  it('gives a size back as it was typed, without noise from the conversion', () => {
    const plain = ownFormat('us', String);
    for (let sixteenths = 1; sixteenths < 2000; sixteenths++) {
      const inches = sixteenths / 16;
      expect(plain(inches * 25.4)).toBe(String(inches));
    }
    expect(ownFormat('metric', String)(1685)).toBe('1685');
  });
});
