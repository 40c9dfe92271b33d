import { describe, expect, it } from 'vitest';
import { partsPlaced, placeCell } from './place-cell.ts';
import { type Fake, fakeBook } from './testing/fake-book.ts';

/** An invented table: a top on four legs, the legs not placed yet. */
const ROWS: readonly (readonly Fake[])[] = [
  ['part', 'count', 'thickness', 'width', 'length', 'place', 'x', 'y', 'z'],
  ['Top', 1, 1, 30, 60, null, 0, 0, 28],
  ['Leg', 4, 2.5, 2.5, 28, null, null, null, null],
  ['leg', 1, 2, 2, 10, null, null, null, null],
  [null, null, null, null, null, null, null, null, null],
];
const at = (row: number, column = 5) => ({ sheet: 's1', row, column });
const book = fakeBook(ROWS);

describe('a cell for the place of a part', () => {
  it('may name each of the other parts', () => {
    expect(placeCell(book, at(2))).toEqual({ names: ['Top', 'leg'] });
    expect(placeCell(book, at(4))).toEqual({ names: ['Top', 'Leg'] });
  });

  it('is none under another head, at the heads, below the table and on another sheet', () => {
    for (const one of [at(2, 4), at(0), at(5), { ...at(2), sheet: 's2' }])
      expect(placeCell(book, one)).toBeUndefined();
  });
});

describe('a place that is being written', () => {
  const placed = (text: string) =>
    partsPlaced(book, at(2), text)?.parts.find(({ name }) => name === 'Leg')?.placing;

  it('places its part as soon as it can be read', () => {
    expect(placed('four corners of To')).toBeUndefined();
    expect(placed('four corners of Top')).toBeDefined();
    expect(placed('four corners of Top, under T')).toBeUndefined();
    expect(placed('four corners of Top, under Top')).toBeDefined();
  });

  it('is none in a cell under another head', () => {
    expect(partsPlaced(book, at(2, 0), 'four corners of Top')).toBeUndefined();
  });
});
