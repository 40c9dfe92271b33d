import { documentOf, type Sketch } from '@kerfbook/document/testing';
import { functionReference } from '@kerfbook/functions';
import { AGGREGATES as KEEPING, type Taken } from '@kerfbook/functions/computing';
import fc from 'fast-check';
import { AGGREGATES } from '../compiled/aggregates.ts';
import { PLAIN as COMPUTED } from '../compiled/functions.ts';

/** An invented workbook for random formulas: names, words, blanks, errors and a loop; no spills. */
export const trialDocument = (formulas: readonly string[] = []) =>
  documentOf({
    sheets: {
      Base: [
        [20, 2.5, 'oak', null],
        [-3, 0.1, '12', true],
        ['=[c1.r1]*0.1', '=[c1.r1]-[c2.r1]', '="$" & 4', '=30%'],
        ['=1/0', 0, '', false],
        ['=[c2.r5]', '=[c1.r5]+1', 1e200, 7],
        [{ value: 24, name: 'wide' }, { value: 'Oak, white', name: 'wood' }, 1e-9, 3],
        [{ name: 'blank', look: {} }, { formula: '=[c1.r6]/7', name: 'part_wide' }, null, null],
      ] as Sketch[][],
      'My cuts': [
        [1, 2],
        [3, 4],
      ],
      Try: [formulas.map((formula) => ({ formula }))],
    },
  });

const leaf = fc.oneof(
  {
    arbitrary: fc.constantFrom('0', '1', '2', '0.1', '0.3', '3', '7', '1e3', '.5', '1E-3', '1e300'),
    weight: 4,
  },
  {
    arbitrary: fc.constantFrom(
      ...[1, 2, 3, 4, 5, 6, 7].flatMap((row) =>
        [1, 2, 3, 4].map((column) => `[s1!c${column}.$r${row}]`),
      ),
    ),
    weight: 5,
  },
  { arbitrary: fc.constantFrom('wide', 'WOOD', 'blank', 'part_wide', 'nowhere'), weight: 3 },
  {
    arbitrary: fc.constantFrom('"oak"', '""', '"a""b"', '"12"', '"30%"', '"$4"', '"TRUE"', '"\\"'),
    weight: 2,
  },
  { arbitrary: fc.constantFrom('TRUE', 'false', 'TRUE()', '#N/A', '#REF!', '#VALUE!'), weight: 1 },
);

const range = fc.constantFrom(
  '[s1!c1.r1]:[c2.r3]',
  '[s1!c1.r1]:[c1.r3]',
  '[s1!c3.r1]:[c4.r4]',
  '[s1!c1.r6]:[c1.r6]',
  '[s1!c1.r5]:[c2.r6]',
  '[s2!c1.r1]:[c2.r2]',
  '[s2!c1.r1]:[c2.r1]',
  '[s1!c1.r1]:[c1.r7]',
  '[s1!c2.r1]:[c2.r7]',
  '[s1!c3.r1]:[c3.r7]',
  '[s1!c2.r1]:[c2.r3]',
  '[s1!c1.r1]:[c4.r1]',
  '[s1!c1.r6]:[c4.r6]',
  '[s1!c2.r3]:[c1.r1]',
  '[s1!c3]:[c3]',
  '[s2!c1]:[c2]',
  '[s2!.r1]:[.r2]',
);

/** Several values that are written out, or made of a range. */
const several = fc.oneof(
  range,
  fc.constantFrom('{1,2,3}', '{3;1;2}', '{"oak",1;TRUE,""}', '{-1.5}', '{"12","b*"}'),
  fc
    .tuple(
      range,
      fc.constantFrom('+', '*', '=', '>', '&', '/'),
      fc.constantFrom('1', '"oak"', '20'),
    )
    .map((parts) => parts.join('')),
  fc.tuple(range, range).map(([a, b]) => `${a}*${b}`),
);

const ALIKE = ['SUM', 'MIN', 'MAX', 'COUNT', 'COUNTA', 'AVERAGE', 'PRODUCT', 'AND', 'OR', 'XOR'];
const PLAIN =
  'IF IFERROR IFNA NOT ABS INT ROUND ROUNDUP ROUNDDOWN TRUNC MOD QUOTIENT CEILING FLOOR MROUND SQRT POWER PI SIGN EVEN ODD CONCATENATE LEN LEFT RIGHT MID UPPER LOWER TRIM ISNUMBER ISTEXT ISBLANK ISERROR ISNA ISERR ISLOGICAL ISNONTEXT IFS CHOOSE SWITCH EXP LN LOG10 LOG SIN COS TAN RADIANS DEGREES NA TRUE FALSE N T TEXT SUMPRODUCT COUNTIF SUMIF INDEX MATCH ROW COLUMN ROWS COLUMNS SHEET SHEETS FORMULATEXT ISFORMULA OFFSET NOTHING'.split(
    ' ',
  );

/** What goes in as an argument: sometimes a range, sometimes nothing. */
const argument = (inner: fc.Arbitrary<string>) =>
  fc.oneof(
    { arbitrary: inner, weight: 8 },
    { arbitrary: range, weight: 1 },
    { arbitrary: fc.constant(''), weight: 1 },
  );

const CRITERIA = [
  '">2"',
  '"<=0"',
  '"<>"',
  '"="',
  '"=oak"',
  '"o*"',
  '"?AK"',
  '""',
  '"<>oak"',
  '"=="',
  '">x"',
];

/** What fits in a place of a function, most of the time. */
function fitting({ as }: Taken, inner: fc.Arbitrary<string>): fc.Arbitrary<string> {
  const small = fc.constantFrom('0', '1', '2', '3', '-1', '0.5', '12', '100', '45000', '1.5');
  const kinds: Record<Taken['as'], fc.Arbitrary<string>> = {
    number: fc.oneof(small, small, inner),
    text: fc.oneof(fc.constantFrom('"oak"', '"a"', '"oak, oak"', '"%"', '"0.00"', '"1010"'), inner),
    logical: fc.oneof(fc.constantFrom('TRUE', 'FALSE', '0', '1'), inner),
    any: inner,
    noError: fc.oneof(fc.constantFrom(...CRITERIA), small, inner),
    range: fc.oneof(range, range, range, several),
    either: fc.oneof(several, inner),
  };
  return fc.oneof(
    { arbitrary: kinds[as], weight: 16 },
    { arbitrary: several, weight: 1 },
    { arbitrary: argument(inner), weight: 1 },
  );
}

const EITHER: Taken = { as: 'either' };
const CALLS = [
  ...[...COMPUTED]
    .filter(([, { changes }]) => changes === undefined)
    .map(([name, { takes, again = 0 }]) => ({ name, takes, again })),
  ...[...AGGREGATES.keys(), ...KEEPING.keys()].map((name) => ({ name, takes: [EITHER], again: 1 })),
];

/** A call of a standard function with arguments that mostly fit. */
const fittingCall = (inner: fc.Arbitrary<string>): fc.Arbitrary<string> =>
  fc.constantFrom(...CALLS).chain(({ name, takes, again }) => {
    const least = takes.filter(
      ({ leftOut, optional }) => leftOut === undefined && !optional,
    ).length;
    return fc.integer({ min: least, max: takes.length + 2 * again }).chain((count) => {
      const places = [...takes];
      while (places.length < count)
        places.push(...places.slice(places.length - Math.max(1, again)));
      return fc
        .tuple(...places.slice(0, count).map((take) => fitting(take, inner)))
        .map((args) => `${name}(${args.join(',')})`);
    });
  });

function expression(depth: number): fc.Arbitrary<string> {
  if (depth === 0) return leaf;
  const inner = expression(depth - 1);
  return fc.oneof(
    { arbitrary: leaf, weight: 2 },
    {
      arbitrary: fc
        .tuple(
          inner,
          fc.constantFrom('+', '-', '*', '/', '^', '&', '=', '<>', '<', '>', '<=', '>=', ' - '),
          inner,
        )
        .map((parts) => parts.join('')),
      weight: 5,
    },
    {
      arbitrary: fc
        .tuple(fc.constantFrom(...ALIKE), fc.array(fc.oneof(inner, range), { maxLength: 3 }))
        .map(([name, args]) => `${name}(${args.join(',')})`),
      weight: 3,
    },
    {
      arbitrary: fc
        .tuple(fc.constantFrom(...PLAIN), fc.array(argument(inner), { maxLength: 4 }))
        .map(([name, args]) => `${name}(${args.join(' , ')})`),
      weight: 4,
    },
    { arbitrary: fittingCall(inner), weight: 6 },
    {
      arbitrary: fc
        .tuple(
          fc.constantFrom(...functionReference()),
          fc.array(argument(inner), { minLength: 8, maxLength: 8 }),
          fc.nat(20),
        )
        .map(([{ name, args }, given, off]) => {
          const count = Math.max(0, args.length + (off < 2 ? 1 : off < 4 ? -1 : 0));
          return `${name}(${given.slice(0, count).join(',')})`;
        }),
      weight: 2,
    },
    {
      arbitrary: fc
        .tuple(fc.constantFrom('-', '+', '%', '()'), inner)
        .map(([sign, a]) => (sign === '()' ? `(${a})` : sign === '%' ? `(${a})%` : `${sign}${a}`)),
      weight: 2,
    },
  );
}

/** Around a call that comes to several values, so that each of them counts. */
const around = fc.constantFrom(
  ['=', ''],
  ['=TEXTJOIN("|",FALSE,', ')'],
  ['=INDEX(', ',2,1)'],
  ['=COUNT(', ',7)'],
  ['=SUM(', ')'],
  ['=IFERROR(SUM(', '),"no")'],
);

/** A call of a standard function of values and ranges, and what is made of all it comes to. */
export const keptCall: fc.Arbitrary<string> = fc
  .tuple(around, fittingCall(fc.oneof(leaf, fittingCall(leaf))))
  .map(([[before, after], inner]) => `${before}${inner}${after}`);

/** A formula as it is kept, on any sheet of {@link trialDocument}. */
export const keptFormula: fc.Arbitrary<string> = expression(3).map((inner) => `=${inner}`);
