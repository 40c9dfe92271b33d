import fc from 'fast-check';
import { expect, it } from 'vitest';
import { bookSchema, LIMITS } from '../format/schema.ts';
import { documentOf } from '../testing/sample.ts';
import { readBook } from './plain-cells.ts';

const rarely = <T, U>(usual: fc.Arbitrary<T>, wrong: fc.Arbitrary<U>): fc.Arbitrary<T | U> =>
  fc.oneof({ weight: 30, arbitrary: usual }, { weight: 1, arbitrary: wrong });

const wrong = fc.constantFrom<unknown>(
  undefined,
  null,
  Number.NaN,
  [],
  {},
  { as: 1 },
  'x'.repeat(LIMITS.text + 1),
);
const words = fc.constantFrom('', 'Top', '1/2"', '=', '__proto__', 'x'.repeat(LIMITS.text));

/** What may stand under the keys of a cell; now and then what may not. */
const cell = fc.record(
  {
    other: rarely(fc.constant({ value: 3, formula: '=1' }), wrong),
    style: rarely(fc.constantFrom({ bold: true }, { wrap: true, align: 'end' }), wrong),
    formula: rarely(fc.constantFrom('=1+1', '=[c1.r1]*2', `=${'1'.repeat(99)}`), wrong),
    value: rarely(
      fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), words, fc.boolean()),
      wrong,
    ),
    typed: rarely(words, wrong),
    quantity: rarely(fc.constantFrom('length', 'count'), wrong),
    show: rarely(fc.constantFrom({ decimals: 2, as: 'decimal' }, { as: 'fraction' }), wrong),
    role: rarely(fc.constantFrom('input', 'note'), fc.constantFrom('', 'toString')),
    name: rarely(fc.constantFrom('a', 'x'.repeat(100)), fc.constant('x'.repeat(101))),
    remark: rarely(words, wrong),
    allow: rarely(fc.constantFrom({ min: 1 }, { list: ['a'] }), wrong),
    override: rarely(fc.constant({ value: 1 }), wrong),
  },
  { requiredKeys: [] },
);
const withMore = rarely(
  cell,
  cell.map((of) => ({ ...of, more: 1 })),
);
const id = rarely(
  fc.constantFrom('c1', 'c2', 'b', 'a12345678901'),
  fc.constantFrom('', 'C1', '1', 'a123456789012', 'é'),
);
const cells = rarely(fc.dictionary(id, rarely(withMore, wrong), { maxKeys: 4 }), wrong);
const row = fc.record(
  {
    cells,
    id: rarely(fc.constantFrom('r1', 'r2'), wrong),
    hidden: rarely(fc.constant(true), fc.constant(false)),
    group: rarely(fc.constant(1), wrong),
  },
  { requiredKeys: ['id'] },
);
const book = fc
  .record({
    rows: rarely(fc.array(rarely(row, wrong), { maxLength: 3 }), wrong),
    title: rarely(words, wrong),
  })
  .map(({ rows, title }): unknown => {
    const document = documentOf({ sheets: { Top: [[1, 2]], Base: [[3]] } });
    const [first, second] = document.sheets;
    return { ...document, title, sheets: [first, { ...second, rows }] };
  });

const told = (read: ReturnType<typeof readBook>): unknown =>
  read.success ? { data: JSON.stringify(read.data) } : { issues: read.error.issues };

it('reads cells key by key as the schema alone reads them, and has it say what is wrong', () => {
  let [good, bad] = [0, 0];
  fc.assert(
    fc.property(book, (raw) => {
      const read = readBook(raw);
      expect(told(read)).toEqual(told(bookSchema.safeParse(raw)));
      if (read.success) good += 1;
      else bad += 1;
    }),
    { numRuns: 1500 },
  );
  // Both are tried often enough to mean something.
  expect(Math.min(good, bad)).toBeGreaterThan(200);
});

it('leaves what it was given as it was', () => {
  const raw = documentOf({ sheets: { Top: [[1, '=[c1.r1]'], [{ value: 2, role: 'input' }]] } });
  const before = structuredClone(raw);
  const read = readBook(raw);
  expect(raw).toStrictEqual(before);
  expect(read.data).toStrictEqual(before);
  expect(read.data?.sheets[0]?.rows[0]?.cells?.c1).not.toBe(raw.sheets[0]?.rows[0]?.cells?.c1);
});
