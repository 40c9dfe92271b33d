import { readTyped } from '@kerfbook/document';
import type { Sketch } from '@kerfbook/document/testing';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bookOf } from '../testing/sample.ts';
import type { Workbook } from '../workbook.ts';
import { infer, type Reference } from './infer.ts';
import { type Base, combine, type Dims, meaningOf, sameDims } from './measure.ts';

/** Cells a generated formula may use: what each is, and a number none of the others has. */
const CELLS = [
  ['long', 'length', 7],
  ['wide', 'length', 3],
  ['thick', 'length', 1.25],
  ['face', 'area', 11],
  ['room', 'volume', 13],
  ['pieces', 'count', 5],
  ['share', 'number', 0.6],
  ['hours', 'duration', 8],
  ['wages', 'money_per_hour', 45],
  ['board_price', 'money_per_boardfoot', 12.5],
  ['board_feet', 'boardfeet', 17],
  ['budget', 'money', 900],
  ['load', 'force', 250],
  ['press', 'pressure', 150],
  ['spread', 'coverage', 400],
  ['can', 'liquid', 32],
] as const;

type Cell = (typeof CELLS)[number];

const dimsOf = ([, quantity]: Cell): Dims => {
  const meaning = meaningOf(quantity);
  return meaning.kind === 'measure' ? meaning.dims : {};
};

/** A formula with the dimensions it was made to have. */
interface Made {
  readonly text: string;
  readonly dims: Dims;
}

const leaf = fc.constantFrom(...CELLS).map((cell): Made => ({ text: cell[0], dims: dimsOf(cell) }));

/** Formulas that go together: sums only ever join two shares of the same formula's kind. */
const sound: fc.Arbitrary<Made> = fc.letrec<{ made: Made }>((tie) => ({
  made: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    leaf,
    fc
      .tuple(tie('made'), tie('made'))
      .map(([a, b]) => ({ text: `(${a.text})*(${b.text})`, dims: combine(a.dims, b.dims, 1) })),
    fc
      .tuple(tie('made'), tie('made'))
      .map(([a, b]) => ({ text: `(${a.text})/(${b.text})`, dims: combine(a.dims, b.dims, -1) })),
    tie('made').map((a) => ({ text: `(${a.text})^2`, dims: combine({}, a.dims, 2) })),
    tie('made').map((a) => ({ text: `SQRT(${a.text})`, dims: combine({}, a.dims, 0.5) })),
    tie('made').map((a) => ({ text: `ABS(-(${a.text}))`, dims: a.dims })),
    tie('made').map((a) => ({ text: `${a.text}+(${a.text})*share`, dims: a.dims })),
    tie('made').map((a) => ({ text: `MAX(${a.text},(${a.text})/pieces)`, dims: a.dims })),
    tie('made').map((a) => ({ text: `IF(pieces>3,${a.text},2*(${a.text}))`, dims: a.dims })),
  ),
})).made;

const nameOf = (reference: Reference): string =>
  reference.kind === 'name' ? reference.name : reference.kind;

const inferred = (text: string) =>
  infer(readTyped(`=${text}`).root ?? { kind: 'error', word: '#ERROR!' }, {
    cells: (reference) => {
      const cell = CELLS.find(([own]) => own === nameOf(reference));
      return cell === undefined ? [] : [meaningOf(cell[1])];
    },
    written: nameOf,
  });

/** How much larger a unit is made, one for each base, so that no product of powers is another. */
const STRETCH: readonly (readonly [Base, number])[] = [
  ['length', 2],
  ['money', 3],
  ['time', 5],
  ['boardfeet', 7],
  ['force', 11],
  ['liquid', 13],
];

function bookWith(scale: (dims: Dims) => number): Workbook {
  const rows = CELLS.map((cell): Sketch[] => [
    { name: cell[0], value: cell[2] * scale(dimsOf(cell)) },
  ]);
  return bookOf({ sheets: { Base: [...rows, ['']] } });
}

/** The number the engine gives, with every cell's base units stretched. */
function numberOf(book: Workbook, text: string): number {
  const done = book.apply({
    do: 'enter',
    sheet: 's1',
    cells: [{ row: CELLS.length, column: 0, text: `=${text}` }],
  });
  if (!done.ok) throw new Error(done.says);
  const value = book.value({ sheet: 's1', row: CELLS.length, column: 0 });
  return value.kind === 'number' ? value.number : Number.NaN;
}

const plain = bookWith(() => 1);
const stretched = STRETCH.map(
  ([base, by]) => [base, by, bookWith((dims) => by ** (dims[base] ?? 0))] as const,
);

describe('what a formula comes to', () => {
  it('M1 grows with the units of its cells as the engine finds its number growing', () => {
    fc.assert(
      fc.property(sound, ({ text }) => {
        const { meaning, clashes } = inferred(text);
        expect(clashes).toEqual([]);
        if (meaning.kind !== 'measure') throw new Error(`${text} is ${meaning.kind}`);
        const before = numberOf(plain, text);
        // Powers of powers leave what a number can hold.
        fc.pre(Number.isFinite(before) && before !== 0);
        for (const [base, by, book] of stretched) {
          const after = numberOf(book, text);
          fc.pre(Number.isFinite(after) && after !== 0);
          const exponent = Math.log(after / before) / Math.log(by);
          expect([base, exponent]).toEqual([base, expect.closeTo(meaning.dims[base] ?? 0, 6)]);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('M1 is what the formula was made to be', () => {
    fc.assert(
      fc.property(sound, ({ text, dims }) => {
        const { meaning } = inferred(text);
        expect(meaning.kind === 'measure' && sameDims(meaning.dims, dims)).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  it.each([
    ['+', 'adds'],
    ['-', 'takes'],
    ['<', 'compares'],
  ])('M1 clashes wherever two kinds meet at %s', (sign, verb) => {
    fc.assert(
      fc.property(sound, sound, (a, b) => {
        fc.pre(!sameDims(a.dims, b.dims) && !(onlyForce(a.dims) && onlyForce(b.dims)));
        // Percent and the three ways to say room are let through on purpose: see measure.test.ts.
        const { clashes } = inferred(`(${a.text})${sign}(${b.text})`);
        const room = [a, b].every(({ dims }) => ROOM.some((one) => sameDims(one, dims)));
        if (!room) expect(clashes).toEqual([expect.stringContaining(verb)]);
      }),
      { numRuns: 500 },
    );
  });
});

const ROOM: readonly Dims[] = [{ length: 3 }, { liquid: 1 }, { boardfeet: 1 }];
const onlyForce = (dims: Dims): boolean => sameDims(dims, { force: 1 });
