import { type Computing, type Family, number, type Taken, text } from './takes.ts';
import { Failure, fail, toNumber, type Value } from './values.ts';

const LONGEST = 10;
const DIGITS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';

const BASES = { BIN: 2, OCT: 8, DEC: 10, HEX: 16 } as const;
type Base = keyof typeof BASES;

const SAID: Readonly<Record<string, string>> = {
  BIN: 'String does not represent a binary number.',
  OCT: 'String does not represent an octal number.',
  HEX: 'String does not represent a hexadecimal number.',
};

/** A number written with the digits of a base; nothing where other signs stand in it. */
function digitsOf(words: string, base: number, longest: number): string | undefined {
  const known = DIGITS.slice(0, base);
  const isRight = words !== '' && words.length <= longest;
  return isRight && [...words].every((one) => known.includes(one)) ? words : undefined;
}

/** The upper half of what ten digits can be stands for numbers below 0. */
function read(words: string, from: Base): number | Failure {
  const digits = digitsOf(words, BASES[from], LONGEST);
  if (digits === undefined) return fail('NUM', SAID[from]);
  const value = Number.parseInt(digits, BASES[from]);
  const all = BASES[from] ** LONGEST;
  return value >= all / 2 ? value - all : value;
}

const plainly = (value: number, base: number): string =>
  (value + (value < 0 ? base ** LONGEST : 0)).toString(base).toUpperCase();

const padded = (digits: string, places: number): string => {
  let all = digits;
  while (all.length < places) all = `0${all}`;
  return all;
};

function written(value: number, to: Base, places: number | undefined): Value {
  const base = BASES[to];
  const half = base ** LONGEST / 2;
  if (value > half - 1) return fail('NUM', 'Value in base too large.');
  if (value < -half) return fail('NUM', 'Value in base too small.');
  const digits = plainly(value, base);
  if (places === undefined || value < 0) return digits;
  if (digits.length > places) return fail('NUM', 'Value in base too long.');
  return padded(digits, places);
}

const fromDecimal = (to: Base): Computing => ({
  takes: [number, { ...number, optional: true, least: 1, most: LONGEST }],
  run: (value: number, places: number | undefined) => written(value, to, places),
});

const places: Taken = { ...number, optional: true, least: 0, most: LONGEST };

const between = (from: Base, to: Base): Computing => ({
  takes: [text, places],
  run: (words: string, count: number | undefined) => {
    const value = read(words, from);
    return value instanceof Failure ? value : written(value, to, count);
  },
});

const toDecimal = (from: Base): Computing => ({
  takes: [text],
  run: (words: string) => read(words, from),
});

const bound: Taken = { as: 'number', least: 2, most: 36 };

/** Letters of one size, each with those before it that take from it, from the plainest to the shortest. */
const ROMAN: readonly (readonly [letters: string, from: number, below: number, mode: number])[][] =
  [
    [
      ['IM', 999, 1000, 4],
      ['ID', 499, 500, 4],
      ['VM', 995, 1000, 3],
      ['VD', 495, 500, 3],
      ['XM', 990, 1000, 2],
      ['XD', 490, 500, 2],
      ['LM', 950, 1000, 1],
      ['LD', 450, 500, 1],
      ['CM', 900, 1000, 0],
      ['CD', 400, 500, 0],
      ['D', 500, 900, 0],
    ],
    [
      ['IC', 99, 100, 2],
      ['IL', 49, 50, 2],
      ['VC', 95, 100, 1],
      ['VL', 45, 50, 1],
      ['XC', 90, 100, 0],
      ['XL', 40, 50, 0],
      ['L', 50, 90, 0],
    ],
    [
      ['IX', 9, 10, 0],
      ['IV', 4, 5, 0],
      ['V', 5, 9, 0],
    ],
  ];

function roman(given: number, form: Value): Value {
  const value = Math.trunc(given);
  const mode = modeOf(form);
  if (mode instanceof Failure) return mode;
  if (mode < 0) return fail('VALUE', 'Value too small.');
  if (mode > 4) return fail('VALUE', 'Value too large.');
  let rest = value % 1000;
  let letters = 'M'.repeat(Math.floor(value / 1000));
  for (const [i, unit] of [100, 10, 1].entries()) {
    for (const [sign, from, below, needs] of ROMAN[i] ?? []) {
      if (mode < needs || rest < from || rest >= below) continue;
      rest -= from;
      letters += sign;
    }
    letters += 'CXI'.charAt(i).repeat(Math.floor(rest / unit));
    rest %= unit;
  }
  return letters;
}

const modeOf = (form: Value): number | Failure => {
  if (typeof form === 'boolean') return form ? 0 : 4;
  const value = toNumber(form);
  return value instanceof Failure ? value : Math.trunc(value);
};

/** Letters as they follow each other, of each group one at the most. */
const ARABIC: readonly Readonly<Record<string, number>>[] = [
  { MMM: 3000, MM: 2000, M: 1000 },
  { IM: 999, VM: 995, XM: 990, LM: 950, CM: 900 },
  { D: 500, ID: 499, VD: 495, XD: 490, LD: 450, CD: 400 },
  { CCC: 300, CC: 200, C: 100 },
  { IC: 99, VC: 95, XC: 90 },
  { L: 50, IL: 49, VL: 45, XL: 40 },
  { XXX: 30, XX: 20, X: 10 },
  { IX: 9 },
  { V: 5, IV: 4 },
  { III: 3, II: 2, I: 1 },
];

function arabic(words: string): Value {
  const wrong = () => fail('VALUE', 'Invalid roman numeral.');
  let rest = words.trim().toUpperCase();
  const isNegative = rest.startsWith('-');
  if (isNegative) rest = rest.slice(1);
  if (isNegative && rest === '') return wrong();
  let value = 0;
  for (const group of ARABIC) {
    const found = Object.entries(group).find(([letters]) => rest.startsWith(letters));
    if (found === undefined) continue;
    rest = rest.slice(found[0].length);
    value += found[1];
  }
  if (rest !== '') return wrong();
  return isNegative ? -value : value;
}

/** Numbers written with other digits. */
export const DIGIT_FAMILY: Family = {
  DEC2BIN: fromDecimal('BIN'),
  DEC2OCT: fromDecimal('OCT'),
  DEC2HEX: fromDecimal('HEX'),
  BIN2DEC: toDecimal('BIN'),
  OCT2DEC: toDecimal('OCT'),
  HEX2DEC: toDecimal('HEX'),
  BIN2OCT: between('BIN', 'OCT'),
  BIN2HEX: between('BIN', 'HEX'),
  OCT2BIN: between('OCT', 'BIN'),
  OCT2HEX: between('OCT', 'HEX'),
  HEX2BIN: between('HEX', 'BIN'),
  HEX2OCT: between('HEX', 'OCT'),
  BASE: {
    takes: [
      { as: 'number', least: 0 },
      bound,
      { as: 'number', optional: true, least: 0, most: 255 },
    ],
    run: (value: number, base: number, count: number | undefined) =>
      padded(plainly(value, base), count ?? 0),
  },
  DECIMAL: {
    takes: [text, bound],
    run: (words: string, base: number) => {
      const digits = digitsOf(words, base, 255);
      return digits === undefined ? fail('NUM', SAID.HEX) : Number.parseInt(digits, base);
    },
  },
  ROMAN: {
    takes: [
      { as: 'number', least: 1, below: 4000 },
      { as: 'noError', leftOut: 0 },
    ],
    run: roman,
  },
  ARABIC: { takes: [text], run: arabic },
};
