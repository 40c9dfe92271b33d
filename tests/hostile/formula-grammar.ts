import { functionNames } from '@kerfbook/workbook';
import fc from 'fast-check';

/** Numbers as they may be typed into a formula. */
const NUMBERS = [
  '0',
  '1',
  '2',
  '-1',
  '0.5',
  '3',
  '7',
  '10',
  '100',
  '1e3',
  '1E-3',
  '.5',
  '5.',
  '30%',
  '1e6',
  '123456789',
  '1e9',
  '1e300',
];

const WORDS = [
  '""',
  '"oak"',
  '"red oak"',
  '"a""b"',
  '">2"',
  '"*"',
  '"\\"',
  '"2024-02-29"',
  '"Base"',
  '"ширина"',
  '"0.00"',
  '"板"',
  '"it\'s"',
];

const ERRORS = ['#REF!', '#N/A', '#DIV/0!', '#NAME?', '#VALUE!', '#NUM!', '#NULL!', '#ERROR!'];

const REFERENCES = [
  'A1',
  '$B$2',
  'A$2',
  'C3',
  'A1:B2',
  'B2:A1',
  'A1:A3',
  '$A1:B$3',
  'Base!A1',
  'Base!A1:A6',
  'Base!B1:C4',
  "'Base'!B2",
  "'Шкаф 2'!A1:A4",
  "'Шкаф 2'!B1",
  '板!A1',
  "'Maker''s'!A1:B2",
  'Nowhere!A1',
  "'no where'!A1:B2",
  'Base!seat_width',
  'Base:板!A1',
  '[c1.r1]',
  '[s1!c1.r1]:[c2.r2]',
  'A1#',
  '@A1',
  'A1:seat_width',
  'A:A',
  'A:B',
  '1:2',
  'Base!A:A',
  "'Шкаф 2'!1:1",
  'Nowhere!1:2',
];

/** Names of the workbook the formulas stand in, and others. */
const NAMES = [
  'seat_width',
  'ШИРИНА',
  'ширина',
  'größe',
  'panel_area',
  'wood',
  'offset_x',
  'e\u0301paisseur',
  'nowhere_named',
  'неизвестно',
  'area_ft²',
  'M#',
  'R',
  'R1C1',
  'LEG1',
  'x.y',
  'true_',
];

const OPERATORS = ['+', '-', '*', '/', '^', '&', '=', '<', '>', '<=', '>=', '<>', ' ', ',', ':'];

const STRAY = [
  '(',
  ')',
  '{',
  '}',
  '[',
  ']',
  '"',
  "'",
  ',',
  ';',
  ':',
  '!',
  '#',
  '@',
  '$',
  '%',
  '&',
  '\\',
  '?',
  '²',
  '½',
  '’',
  '√',
  '\u200B',
  '\n',
  '\u0301',
  '\uD800',
  '€',
  'А1',
  ' ',
  '.',
  '=',
  'TRUE',
];

const leaf = fc.oneof(
  { arbitrary: fc.constantFrom(...NUMBERS), weight: 4 },
  { arbitrary: fc.constantFrom(...REFERENCES), weight: 4 },
  { arbitrary: fc.constantFrom(...NAMES), weight: 3 },
  { arbitrary: fc.constantFrom(...WORDS), weight: 2 },
  { arbitrary: fc.constantFrom('TRUE', 'FALSE', 'true', 'TRUE()', 'False'), weight: 1 },
  { arbitrary: fc.constantFrom(...ERRORS), weight: 1 },
  {
    arbitrary: fc.constantFrom('{1,2;3,4}', '{1;2}', '{"a",1}', '{1,2;3}', '{}', '{A1}'),
    weight: 1,
  },
);

/** An expression of at most so many functions and signs within each other. */
function expression(depth: number): fc.Arbitrary<string> {
  if (depth === 0) return leaf;
  const inner = expression(depth - 1);
  return fc.oneof(
    { arbitrary: leaf, weight: 3 },
    {
      arbitrary: fc
        .tuple(
          fc.constantFrom(...functionNames()),
          fc.array(fc.oneof(inner, fc.constant('')), { maxLength: 5 }),
        )
        .map(([name, args]) => `${name}(${args.join(',')})`),
      weight: 6,
    },
    {
      arbitrary: fc
        .tuple(inner, fc.constantFrom(...OPERATORS), inner)
        .map(([a, operator, b]) => `${a}${operator}${b}`),
      weight: 4,
    },
    {
      arbitrary: fc
        .tuple(fc.constantFrom('-', '+', '(', '%', '()', '--'), inner)
        .map(([sign, a]) => {
          if (sign === '(') return `(${a})`;
          if (sign === '%') return `${a}%`;
          return sign === '()' ? `(${a})(${a})` : `${sign}${a}`;
        }),
      weight: 2,
    },
    {
      arbitrary: fc
        .tuple(
          fc.constantFrom(
            'LET',
            'LAMBDA',
            'SUM',
            'IF',
            'sum',
            'Ширина',
            'NOTHING',
            'größe',
            '_xlfn.IFS',
            'R',
            'true',
          ),
          fc.array(inner, { maxLength: 3 }),
        )
        .map(([name, args]) => `${name}(${args.join(', ')})`),
      weight: 1,
    },
  );
}

/** A piece put in, taken out or doubled somewhere. */
const spoiling = fc.record({
  at: fc.nat(99),
  length: fc.nat(6),
  put: fc.oneof(fc.constantFrom(...STRAY), fc.constant('')),
});

function spoilt(text: string, { at, length, put }: { at: number; length: number; put: string }) {
  const start = Math.floor((at / 100) * text.length);
  return text.slice(0, start) + put + text.slice(put === '' ? start + length : start);
}

/** A formula as a maker, a paste or chance may type it. */
export const formulaText: fc.Arbitrary<string> = fc
  .tuple(expression(2), fc.option(spoiling, { freq: 4, nil: undefined }))
  .map(([inner, piece]) => `=${piece === undefined ? inner : spoilt(inner, piece)}`);

/** What chance changes in a value: nothing of the kind may be compared. */
export const CHANGING = /\b(?:RAND|RANDBETWEEN|NOW|TODAY)\b/i;
