import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { centimetres, feet, feetInches, fraction, inches, millimetres } from './lengths.ts';
import { expectFault } from './testdata/faults.ts';

const anyLength = fc.double({ min: -5000, max: 5000, noNaN: true });
const denominators = fc.constantFrom(1, 2, 3, 4, 8, 10, 16, 32, 64, 128);

/** The length a written fraction stands for. */
function lengthWritten(text: string): number {
  const [feetPart, rest] = text.includes("'") ? text.split("'") : ['0', text];
  const parts = (rest ?? '').replace(/["-]/g, '').trim().split(' ');
  const inchesOver = parts
    .map((part) =>
      part
        .split('/')
        .map(Number)
        .reduce((over, under) => over / under),
    )
    .reduce((a, b) => a + b);
  const size = 12 * Math.abs(Number(feetPart)) + inchesOver;
  return text.startsWith('-') ? -size : size;
}

describe('FRACTION', () => {
  // arithmetic; a tie rounds away from zero
  it.each([
    [33.19, 16, '33 3/16'],
    [33.1875, 16, '33 3/16'],
    [0.1875, 16, '3/16'],
    [33, 16, '33'],
    [0, 16, '0'],
    [33.99, 16, '34'],
    [0.5, 16, '1/2'],
    [0.03125, 16, '1/16'],
    [-0.03125, 16, '-1/16'],
    [-33.1875, 16, '-33 3/16'],
    [-0.001, 16, '0'],
    [1.75, 2, '2'],
    [-1.75, 2, '-2'],
    [0.3, 10, '3/10'],
    [1.005, 100, '1 1/100'],
    [66.375, undefined, '66 3/8'],
    [845 / 25.4, 16, '33 1/4'],
  ])('%d in %s parts is %s', (length, denominator, text) => {
    expect(fraction(length, denominator)).toBe(text);
  });

  it('is the nearest such fraction, in lowest terms, whatever the sign', () => {
    fc.assert(
      fc.property(anyLength, denominators, (length, denominator) => {
        const text = fraction(length, denominator);
        expect(Math.abs(lengthWritten(text) - length)).toBeLessThanOrEqual(
          0.5 / denominator + 1e-8,
        );
        const mirrored = fraction(-length, denominator);
        expect(mirrored).toBe(
          text === '0' ? '0' : text.startsWith('-') ? text.slice(1) : `-${text}`,
        );
      }),
    );
  });

  it('refuses other denominators', () => {
    for (const bad of [0, -16, 1.5, 129])
      expectFault(() => fraction(1, bad), 'range', 'denominator');
    expectFault(() => fraction(1e7), 'range', 'length');
  });
});

describe('FEET_INCHES', () => {
  it.each([
    [66.375, 16, `5' 6 3/8"`],
    [6.375, 16, `6 3/8"`],
    [72, 16, `6' 0"`],
    [71.999, 16, `6' 0"`],
    [11.99, 16, `1' 0"`],
    [72.5, 16, `6' 1/2"`],
    [0, 16, `0"`],
    [-66.375, 16, `-5' 6 3/8"`],
    [-71.999, 8, `-6' 0"`],
    [84, undefined, `7' 0"`],
  ])('%d in %s parts is %s', (length, denominator, text) => {
    expect(feetInches(length, denominator)).toBe(text);
  });

  it('is the same length as FRACTION writes, and never has twelve inches over', () => {
    fc.assert(
      fc.property(anyLength, denominators, (length, denominator) => {
        const text = feetInches(length, denominator);
        expect(lengthWritten(text)).toBeCloseTo(lengthWritten(fraction(length, denominator)), 9);
        const over = /(\d+)(?: \d+\/\d+)?"$/.exec(text.replace(/ ?\d+\/\d+"/, '"'));
        if (over) expect(Number(over[1])).toBeLessThan(12);
      }),
    );
  });
});

describe('IN, FT, MM, CM', () => {
  // NIST SP 811, appendix B: 1 in = 25.4 mm exactly
  it('make lengths of bare numbers', () => {
    expect(inches(1.5)).toBe(1.5);
    expect(feet(7)).toBe(84);
    expect(millimetres(25.4)).toBe(1);
    expect(centimetres(2.54)).toBe(1);
    expect(millimetres(-38) * 25.4).toBeCloseTo(-38, 12);
  });

  it('agree with each other', () => {
    fc.assert(
      fc.property(anyLength, (value) => {
        expect(centimetres(value)).toBeCloseTo(millimetres(10 * value), 9);
        expect(feet(value)).toBeCloseTo(inches(12 * value), 9);
        expect(inches(value)).toBeCloseTo(millimetres(25.4 * value), 9);
      }),
    );
  });

  it('refuse a length beyond sense', () => {
    expectFault(() => feet(1e6), 'range', 'value');
    expectFault(() => millimetres(Number.NaN), 'kind', 'value');
  });
});
