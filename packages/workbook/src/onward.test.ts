import { expect, it } from 'vitest';
import { bookOf } from './testing/sample.ts';
import { Workbook } from './workbook.ts';

/** What is heard while a workbook of so many rows opens. */
function heardOf(rows: number, formula: (row: number) => string) {
  const grid = Array.from({ length: rows }, (_, at) => [at, formula(at + 1)]);
  const heard: { share: number; isHandedOn: boolean }[] = [];
  const document = bookOf({ sheets: { Long: grid } }).document();
  const book = Workbook.open(document, {
    onward: (share, isHandedOn) => heard.push({ share, isHandedOn }),
  });
  return { heard, book };
}

it('tells how much of a large workbook is open', () => {
  const { heard, book } = heardOf(3_000, (row) => `=[c1.r${row}]*2`);
  const shares = heard.map(({ share }) => share);
  expect(shares.length).toBeGreaterThan(20);
  expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  expect(shares[0]).toBe(0);
  expect(shares.at(-1)).toBeGreaterThan(0.9);
  expect(shares.at(-1)).toBeLessThanOrEqual(1);
  expect(heard.some(({ isHandedOn }) => isHandedOn)).toBe(false);
  expect(book.value({ sheet: 's1', row: 2_999, column: 1 })).toEqual({
    kind: 'number',
    number: 5_998,
  });
});

it('tells that another engine has to carry it as soon as its formulas cost too much together', () => {
  const { heard } = heardOf(2_000, () => '=SUMPRODUCT([c1.r1]:[c1.r2000]*2)');
  const at = heard.findIndex(({ isHandedOn }) => isHandedOn);
  expect(at).toBeGreaterThan(0);
  expect(heard[at]?.share).toBeLessThan(0.5);
  expect(heard.at(-1)).toEqual({ share: 0.5, isHandedOn: true });
});
