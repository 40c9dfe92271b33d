import { documentOf, type Sketch } from '@kerfbook/document/testing';
import { functionReference } from '@kerfbook/functions';
import fc from 'fast-check';

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
);

const ALIKE = ['SUM', 'MIN', 'MAX', 'COUNT', 'COUNTA', 'AVERAGE', 'PRODUCT', 'AND', 'OR', 'XOR'];
const PLAIN =
  'IF IFERROR IFNA NOT ABS INT ROUND ROUNDUP ROUNDDOWN TRUNC MOD QUOTIENT CEILING FLOOR MROUND SQRT POWER PI SIGN EVEN ODD CONCATENATE LEN LEFT RIGHT MID UPPER LOWER TRIM ISNUMBER ISTEXT ISBLANK ISERROR ISNA ISERR ISLOGICAL ISNONTEXT IFS CHOOSE SWITCH EXP LN LOG10 LOG SIN COS TAN RADIANS DEGREES NA TRUE FALSE N T TEXT SUMPRODUCT COUNTIF SUMIF INDEX MATCH ROW OFFSET NOTHING'.split(
    ' ',
  );

/** What goes in as an argument: sometimes a range, sometimes nothing. */
const argument = (inner: fc.Arbitrary<string>) =>
  fc.oneof(
    { arbitrary: inner, weight: 8 },
    { arbitrary: range, weight: 1 },
    { arbitrary: fc.constant(''), weight: 1 },
  );

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

/** A formula as it is kept, on any sheet of {@link trialDocument}. */
export const keptFormula: fc.Arbitrary<string> = expression(3).map((inner) => `=${inner}`);
