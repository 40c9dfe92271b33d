import { readEntry } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { EIGHTHS, SIXTEENTHS, withFraction, withoutLast, withSign } from './pad-keys.ts';

const at = (text: string, caret = text.length) => ({ text, caret });

describe('a fraction from the pad', () => {
  it.each([
    ['', '3/8', '3/8'],
    ['7', '1/2', '7 1/2'],
    ['7 1/2', '3/8', '7 3/8'],
    ['1/2', '3/8', '3/8'],
    ['7.25', '3/8', '7 3/8'],
    ['7.', '1/8', '7 1/8'],
    ['.5', '1/8', '1/8'],
    ['17 11/16', '1/16', '17 1/16'],
    ['7-1/2', '1/4', '7 1/4'],
    ["5'", '1/4', "5'1/4"],
    ["5' 6", '1/4', "5' 6 1/4"],
    ["5' 6 7/8", '1/4', "5' 6 1/4"],
    ['7"', '1/2', '7 1/2"'],
    ['7 1/2"', '3/4', '7 3/4"'],
    ['-', '1/2', '-1/2'],
    ['-7', '1/2', '-7 1/2'],
    ['7 1/', '1/8', '7 1/8'],
  ])('after "%s", %s makes "%s"', (text, fraction, made) => {
    expect(withFraction(at(text), fraction)).toEqual(at(made));
  });

  it('goes in at the caret', () => {
    expect(withFraction(at('7 mm', 1), '1/2')).toEqual(at('7 1/2 mm', 5));
  });

  it('is each eighth and each sixteenth, and is read as that', () => {
    const context = { system: 'us', currency: 'USD', quantity: 'length' } as const;
    const all = [...EIGHTHS, ...SIXTEENTHS].map((one) => {
      const read = readEntry(withFraction(at('7'), one).text, context);
      return read.kind === 'value' ? Number(read.value) - 7 : undefined;
    });
    const wanted = Array.from({ length: 15 }, (_, i) => (i + 1) / 16);
    expect(all.sort()).toEqual(wanted.sort());
  });
});

describe('what is taken out and put in on the pad', () => {
  it('is a sign at the caret', () => {
    expect(withSign(at('73', 1), '4')).toEqual(at('743', 2));
  });

  it('is a fraction as a whole where it came at one press, else a letter', () => {
    expect(withoutLast(at('7 11/16'), true)).toEqual(at('7'));
    expect(withoutLast(at('7 1/2"'), true)).toEqual(at('7"'));
    expect(withoutLast(at('11/16'), true)).toEqual(at(''));
    expect(withoutLast(at('7 11/16'), false)).toEqual(at('7 11/1'));
    expect(withoutLast(at(''), false)).toEqual(at(''));
    expect(withoutLast(at('73', 1), false)).toEqual(at('3', 0));
  });
});
