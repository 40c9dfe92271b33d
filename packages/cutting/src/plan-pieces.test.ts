import { describe, expect, it } from 'vitest';
import { type Board, type Piece, planPieces } from './plan-pieces.ts';

/** Sizes in mm, all invented. */
const piece = (name: string, count: number, width: number, length: number) => ({
  name,
  count,
  thickness: 19,
  width,
  length,
  material: 'oak',
});
const board = (width: number, length: number, price: number, atHand?: number): Board => ({
  material: 'oak',
  thickness: 19,
  width,
  length,
  price,
  ...(atHand === undefined ? {} : { atHand }),
});
const plan = (items: readonly (Piece & { readonly name: string })[], stock: readonly Board[]) =>
  planPieces(items, stock, { kerf: 3, effort: 'cell' });

describe('pieces whose best section has not enough boards', () => {
  // An offcut of 95 wide is nearest to rails of 90, and gives one of them.
  const stock = [board(150, 2400, 20), board(95, 1000, 0, 1)];

  it('come out of the next one that holds them', () => {
    const { homeless, groups, cost } = plan([piece('rail', 2, 90, 740)], stock);
    expect(homeless).toEqual([]);
    expect(groups.map(({ width }) => width)).toEqual([150]);
    expect(cost).toBe(20);
  });

  it('leave it to those that it has enough boards for', () => {
    const items = [piece('long', 1, 90, 900), piece('short', 1, 90, 700)];
    const { homeless, groups } = plan(items, stock);
    expect(homeless).toEqual([]);
    const where = groups.map(({ width, boards }) => [
      width,
      boards.flatMap(({ pieces }) => pieces.map(({ item }) => item.name)),
    ]);
    expect(where).toEqual([
      [95, ['long']],
      [150, ['short']],
    ]);
  });

  it('are left out, with what is wrong, where no other holds them', () => {
    const { homeless } = plan([piece('rail', 2, 90, 740)], [board(95, 1000, 0, 1)]);
    expect(homeless).toMatchObject([
      { item: { name: 'rail' }, why: { fault: { code: 'supply-short' } } },
    ]);
    const mixed = [piece('rail', 2, 90, 740), piece('door', 1, 300, 740)];
    expect(plan(mixed, stock).homeless.map(({ item }) => item.name)).toEqual(['door']);
  });

  it('go on from section to section', () => {
    const three = [board(150, 2400, 20), board(120, 800, 5, 1), board(95, 800, 0, 1)];
    const { homeless, groups } = plan([piece('rail', 3, 90, 740)], three);
    expect(homeless).toEqual([]);
    expect(groups.map(({ width }) => width)).toEqual([150]);
  });
});
