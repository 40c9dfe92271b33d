import { type CellDocument, readEntry } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { seriesOf } from './series.ts';

/** Cells as they hold what is typed into blank ones. */
const cells = (texts: readonly string[]): CellDocument[] =>
  texts.map((text) => {
    const read = readEntry(text, { system: 'us', currency: 'USD', year: 2026 });
    if (read.kind !== 'value') throw new Error(text);
    return read.quantity === undefined
      ? { value: read.value }
      : { value: read.value, quantity: read.quantity };
  });

const next = (texts: readonly string[], count: number): unknown => {
  const following = seriesOf(cells(texts));
  return following && Array.from({ length: count }, (_, k) => following(k));
};
const valuesOf = (texts: readonly string[]): unknown => cells(texts).map(({ value }) => value);

describe('what a line of cells goes on with', () => {
  it.each([
    [['Mon'], ['Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun', 'Mon']],
    [['friday'], ['saturday', 'sunday', 'monday']],
    [
      ['MONDAY', 'WEDNESDAY'],
      ['FRIDAY', 'SUNDAY', 'TUESDAY'],
    ],
    [['November'], ['December', 'January']],
    [
      ['apr', 'may'],
      ['jun', 'jul'],
    ],
    [['May'], ['June']],
    [
      ['Jan', 'Apr'],
      ['Jul', 'Oct', 'Jan'],
    ],
    [
      ['Sun', 'Sat'],
      ['Fri', 'Thu'],
    ],
    [['shelf 1'], ['shelf 2', 'shelf 3']],
    [
      ['shelf 2', 'shelf 4'],
      ['shelf 6', 'shelf 8'],
    ],
  ])('%j: %j', (texts, wanted) => {
    expect(next(texts, wanted.length)).toEqual(wanted);
  });

  // Counted by hand in a calendar; 2028 is a leap year.
  it.each([
    [['2026-03-14'], ['2026-03-15', '2026-03-16']],
    [
      ['2026-03-14', '2026-03-21'],
      ['2026-03-28', '2026-04-04'],
    ],
    [
      ['2026-01-15', '2026-02-15'],
      ['2026-03-15', '2026-04-15'],
    ],
    [
      ['2026-11-15', '2026-12-15'],
      ['2027-01-15', '2027-02-15'],
    ],
    [
      ['2026-01-31', '2026-02-28'],
      ['2026-03-31', '2026-04-30'],
    ],
    [
      ['2027-12-31', '2028-01-31'],
      ['2028-02-29', '2028-03-31'],
    ],
    [
      ['2026-01-01', '2027-01-01'],
      ['2028-01-01', '2029-01-01'],
    ],
    [
      ['2026-03-15', '2026-02-15'],
      ['2026-01-15', '2025-12-15'],
    ],
    [
      ['2026-01-30', '2026-03-30'],
      ['2026-05-30', '2026-07-30'],
    ],
  ])('%j: %j', (texts, wanted) => {
    expect(next(texts, wanted.length)).toEqual(valuesOf(wanted));
  });

  it('is even steps of numbers, a single number over again', () => {
    expect(next(['1', '2'], 3)).toEqual([3, 4, 5]);
    expect(next(['0.1', '0.2'], 2)).toEqual([0.3, 0.4]);
    expect(next(['7'], 2)).toBeUndefined();
    expect(next(['1', '2', '4'], 1)).toBeUndefined();
    expect(next(['Mon', 'Tue', 'Sat'], 1)).toBeUndefined();
    expect(next(['Mon', '2'], 1)).toBeUndefined();
    expect(next(['oak'], 1)).toBeUndefined();
  });
});
