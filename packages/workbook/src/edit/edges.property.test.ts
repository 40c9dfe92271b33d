import {
  type BookDocument,
  type CellDocument,
  type Edit,
  LIMITS,
  type SheetDocument,
} from '@kerfbook/document';
import { documentOf } from '@kerfbook/document/testing';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectLaw, openLong } from '../testing/law.ts';

/** One less than the most, the most, and one more. */
const near = (most: number) => fc.constantFrom(most - 1, most, most + 1);
/** Numbers that no position, count or size ought to be, and some that they may. */
const wild = fc.constantFrom(-1, 0, 0.5, 1, 2, 3, 1e9, 2 ** 53, -1e300, Number.NaN, Infinity);
/** Mostly near the most. */
const edge = (most: number) =>
  fc.oneof({ weight: 3, arbitrary: near(most) }, { weight: 1, arbitrary: wild });
/** Words near the most letters, of letters that take one place and of such that take two. */
const words = (most: number, first = '') =>
  fc
    .tuple(near(most), fc.constantFrom('x', 'щ', '"', '𝒳'))
    .map(([letters, letter]) => first + letter.repeat((letters - first.length) / letter.length));
const optional = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: undefined, freq: 3 });

/** Cells with one thing in them that is near what is kept. */
const cell: fc.Arbitrary<CellDocument> = fc.oneof(
  words(LIMITS.text).map((value) => ({ value })),
  wild.map((value) => ({ value })),
  words(LIMITS.text).map((typed) => ({ value: 1, typed })),
  words(LIMITS.text).map((value) => ({ formula: '=1', override: { value } })),
  words(100, 'n').map((name) => ({ name })),
  near(LIMITS.kept).map((letters) => ({ formula: `=${'1'.repeat(letters - 1)}` })),
  near(LIMITS.text).map((letters) => ({ formula: `="${'x'.repeat(letters - 3)}"` })),
  near(LIMITS.formula).map((letters) => ({ formula: `="${'x'.repeat(letters - 3)}"` })),
);
const traits = fc.oneof(
  words(LIMITS.text).map((remark) => ({ remark })),
  near(500).map((count) => ({ allow: { list: Array<string>(count).fill('x') } })),
  words(LIMITS.text).map((choice) => ({ allow: { list: [choice] } })),
  fc.tuple(wild, wild).map(([min, max]) => ({ allow: { min, max } })),
  fc.oneof(wild, near(10)).map((decimals) => ({ show: { decimals } })),
  fc
    .oneof(wild, near(2), near(128))
    .map((denominator) => ({ show: { as: 'fraction' as const, denominator } })),
  words(12).map((unit) => ({ show: { unit } })),
);
const check = fc
  .record({
    name: optional(words(200)),
    says: optional(words(LIMITS.text)),
    letters: optional(near(LIMITS.kept)),
  })
  .map(({ name = 'K', says = 'No.', letters = 2 }) => ({
    name,
    says,
    severity: 'care' as const,
    formula: `=${'1'.repeat(letters - 1)}`,
  }));
const sheetOf = (id: string, name: string): SheetDocument => ({
  id,
  name,
  columns: [{ id: 'c1' }],
  rows: [{ id: 'r1' }],
});
const ids = (count: number, kind: string) =>
  Array.from({ length: count }, (_, i) => ({ id: `${kind}${i}` }));

// Rows become many on one sheet and columns on the other: seven million cells take too long to look at.
const [TALL, WIDE] = ['s1', 's2'];
const at = { row: 0, column: 1 };
const EDGES: readonly fc.Arbitrary<Edit>[] = [
  fc.oneof(near(LIMITS.text), near(LIMITS.formula)).map((letters) => ({
    do: 'enter',
    sheet: TALL,
    cells: [{ ...at, text: `=${'1'.repeat(letters - 1)}` }],
  })),
  words(LIMITS.text).map((text) => ({ do: 'enter', sheet: TALL, cells: [{ ...at, text }] })),
  edge(LIMITS.rows - 1).map((row) => ({
    do: 'enter',
    sheet: TALL,
    cells: [{ row, column: 0, text: '5' }],
  })),
  near(LIMITS.rows).map((row) => ({
    do: 'enter',
    sheet: TALL,
    cells: [{ ...at, text: `=A${row}+1` }],
  })),
  edge(LIMITS.columns - 1).map((column) => ({
    do: 'enter',
    sheet: WIDE,
    cells: [{ row: 0, column, text: '5' }],
  })),
  cell.map((one) => ({ do: 'setCells', sheet: TALL, cells: [{ ...at, cell: one }] })),
  cell.map((one) => ({ do: 'place', sheet: TALL, cells: [{ ...at, cell: one }] })),
  fc.tuple(wild, wild).map(([row, rows]) => ({
    do: 'moveCells',
    sheet: TALL,
    from: { row, column: 0, rows, columns: 1 },
    to: { sheet: TALL, row: 2, column: 1 },
  })),
  edge(LIMITS.rows - 1).map((row) => ({
    do: 'moveCells',
    sheet: TALL,
    from: { row: 0, column: 0, rows: 2, columns: 1 },
    to: { sheet: TALL, row, column: 0 },
  })),
  traits.map((one) => ({ do: 'describeCells', sheet: TALL, cells: [{ ...at, traits: one }] })),
  words(100, 'n').map((name) => ({ do: 'nameCell', at: { sheet: TALL, ...at }, name })),
  words(100, 'n').map((to) => ({ do: 'renameName', from: 'top', to })),
  near(LIMITS.rows - 3).map((count) => ({
    do: 'insertRows',
    sheet: TALL,
    at: 1,
    rows: ids(count, 'x'),
  })),
  near(LIMITS.columns - 2).map((count) => ({
    do: 'insertColumns',
    sheet: WIDE,
    at: 1,
    columns: ids(count, 'x'),
  })),
  fc.tuple(wild, wild).map(([from, count]) => ({
    do: 'deleteRows',
    sheet: TALL,
    at: from,
    count,
  })),
  fc.tuple(wild, wild).map(([from, count]) => ({
    do: 'deleteColumns',
    sheet: WIDE,
    at: from,
    count,
  })),
  fc.oneof(near(16), near(2000), wild).map((width) => ({
    do: 'setColumn',
    sheet: TALL,
    column: 0,
    width,
  })),
  edge(LIMITS.frozen).map((columns) => ({ do: 'freeze', sheet: TALL, columns })),
  edge(LIMITS.frozen).map((rows) => ({ do: 'freeze', sheet: TALL, rows })),
  wild.map((row) => ({ do: 'hideRows', sheet: TALL, rows: [row], hidden: true })),
  wild.map((column) => ({ do: 'hideColumns', sheet: TALL, columns: [column], hidden: true })),
  fc
    .tuple(wild, edge(LIMITS.groups))
    .map(([row, group]) => ({ do: 'groupRows', sheet: TALL, rows: [{ row, group }] })),
  near(LIMITS.sheets - 2).map((count) => ({
    do: 'batch',
    edits: Array.from({ length: count }, (_, i) => ({
      do: 'addSheet' as const,
      at: i,
      sheet: sheetOf(`t${i}`, `T ${i}`),
    })),
  })),
  fc
    .tuple(words(LIMITS.sheetName), wild)
    .map(([name, place]) => ({ do: 'addSheet', at: place, sheet: sheetOf('s9', name) })),
  words(LIMITS.sheetName).map((name) => ({ do: 'renameSheet', sheet: TALL, name })),
  wild.map((to) => ({ do: 'moveSheet', sheet: TALL, to })),
  fc.boolean().map((hidden) => ({ do: 'hideSheet' as const, sheet: TALL, hidden })),
  fc.tuple(fc.oneof(near(LIMITS.checks), fc.constant(1)), check).map(([count, one]) => ({
    do: 'setChecks',
    // Many long ones would take more than a workbook may, which is another limit and takes longer.
    checks: ids(count, 'k').map(({ id }, i) => ({
      id,
      ...(i === 0 ? one : { ...one, says: 'No.', formula: '=1' }),
    })),
  })),
  near(LIMITS.tables).map((count) => ({
    do: 'setTables',
    tables: ids(count, 't').map(({ id }) => ({
      id,
      kind: 'parts' as const,
      sheet: TALL,
      header: 'r1',
      last: 'r2',
    })),
  })),
  fc
    .record(
      {
        title: words(200),
        about: words(LIMITS.text),
        author: words(200),
        licence: words(200),
        currency: fc.constantFrom('EUR', 'EU', 'EURO', 'eur'),
        lineage: fc.record({ template: words(200), revision: wild }),
      },
      { requiredKeys: [] },
    )
    .map((set) => ({ do: 'setBook', set })),
];

const book = (): BookDocument => ({
  ...documentOf({
    sheets: {
      Tall: [
        [{ value: 3, name: 'top' }, '=top+[c1.r2]'],
        [4, '=SUM([c1.r1]:[c1.r3])'],
        [5, '=[s2!c1.r1]'],
      ],
      Wide: [['=top', 2]],
    },
  }),
  checks: [
    { id: 'k1', name: 'K', formula: '=top>[s1!c1.r2]', severity: 'care', says: 'It is {top}.' },
  ],
});

describe('any edit at the edge of any limit', () => {
  it('L1 A1 E1 is refused whole in a sentence, or opens again with the same values', async () => {
    const outcomes = { refused: 0, taken: 0 };
    for (const kind of EDGES) {
      await new Promise(setImmediate);
      const after = fc.option(fc.oneof(...EDGES), { nil: undefined, freq: 1 });
      fc.assert(
        fc.property(kind, after, (first, second) => {
          const open = openLong(book());
          outcomes[expectLaw(open, first)] += 1;
          if (second !== undefined) outcomes[expectLaw(open, second)] += 1;
        }),
        { numRuns: 6, endOnFailure: true },
      );
    }
    expect(Math.min(outcomes.refused, outcomes.taken)).toBeGreaterThan(40);
  });
});
