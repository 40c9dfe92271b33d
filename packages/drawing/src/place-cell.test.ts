import { describe, expect, it } from 'vitest';
import { readParts } from './parts.ts';
import { partsPlaced, partTroubles, placeCell } from './place-cell.ts';
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

describe('a place with something wrong', () => {
  const troubles = (place: Fake, length: Fake = 20) => {
    const rows = ROWS.map((row, i) => {
      if (i === 2) return ['Leg', 4, 2.5, 2.5, 28, 'four corners of Top', null, null, null];
      return i === 3 ? ['Rail', 1, 1, 3, length, place, null, null, 12] : row;
    });
    const source = fakeBook(rows);
    return partTroubles(source, readParts(source)).map((one) => [one.at, one.state]);
  };

  it('is told at its cell: to be mended where the part is placed nowhere, to be looked at where it is', () => {
    expect(troubles('betwixt Leg')).toEqual([[at(3), 'stop']]);
    expect(troubles('between Leg across, front of Top')).toEqual([[at(3), 'stop']]);
    expect(troubles('between Leg across, left end of Top')).toEqual([[at(3), 'care']]);
    expect(troubles('between Leg across, left end of Top', 25)).toEqual([]);
  });

  it('is all there is to say of it, once', () => {
    const rows = ROWS.map((row, i) => {
      if (i === 2) return ['Leg', 4, 2.5, 2.5, 28, 'four corners of Top', null, null, null];
      return i === 3 ? ['Rail', 2, 1, 3, 50, 'between Leg, front and back', null, null, null] : row;
    });
    const source = fakeBook(rows);
    const [told, ...others] = partTroubles(source, readParts(source));
    expect(told?.says).toMatch(/^Rail is 50 long; .+ Rail lies on the floor .+belongs there\.$/);
    expect(others).toEqual([]);
  });

  it('is told of a shape at its cell too: what cannot be read, is short of a size, or cannot be made', () => {
    const shapes = (head: readonly string[], cells: readonly Fake[]) => {
      const [heads = [], top = []] = ROWS;
      const source = fakeBook([
        [...heads, ...head],
        [...top, ...cells],
      ]);
      return partTroubles(source, readParts(source)).map(({ at: { column }, says, state }) => [
        head[column - heads.length],
        state,
        says,
      ]);
    };
    const words = ['shape', 'taper', 'edge', 'ends'];
    expect(
      shapes(words, ['ovl', 'inwards', 'rounded', 'mitred 200']).map(([head, state]) => [
        head,
        state,
      ]),
    ).toEqual(words.map((head) => [head, 'stop']));
    const [edge] = shapes(['edge', 'edge size'], ['chamfer', null]);
    expect(edge).toEqual(['edge', 'stop', expect.stringContaining('edge size')]);
    // An arch of 40 in a rail of 30 leaves nothing of it.
    expect(shapes(['arch', 'splay along'], [40, 80])).toEqual([
      ['splay along', 'stop', expect.stringContaining('60')],
      ['arch', 'stop', expect.stringContaining('40')],
    ]);
    expect(shapes(['shape', 'edge', 'edge size'], ['oval', 'chamfer', 0.25])).toEqual([]);
    expect(shapes(['arch'], ['high'])).toEqual([['arch', 'stop', expect.stringContaining('high')]]);
  });

  it('is none of the other cells of its row, nor of one without words', () => {
    expect(troubles(null)).toEqual([]);
    expect(troubles('left end of Top', null)).toEqual([]);
  });
});
