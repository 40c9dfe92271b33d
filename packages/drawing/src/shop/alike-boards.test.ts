import { describe, expect, it } from 'vitest';
import { alikeBoards } from './alike-boards.ts';
import type { CutItem } from './cut-list.ts';
import type { PlannedBoard } from './plan.ts';
import type { StockItem } from './stock.ts';

const at = { sheet: 's1', row: 1, column: 0 };
const stock: StockItem = {
  at,
  name: '2x4',
  material: 'pine',
  thickness: 38,
  width: 89,
  length: 2438,
  price: 4,
};
const leg = (name: string): CutItem => ({
  at,
  name,
  count: 2,
  thickness: 38,
  width: 89,
  length: 700,
  material: 'pine',
});
const board = (item: CutItem): PlannedBoard => ({
  stock,
  offcut: 1735,
  pieces: [{ item, length: 700, at: 0, strips: 1 }],
});

describe('boards that are cut alike', () => {
  it('stand together where they follow each other and give the same pieces', () => {
    const one = leg('Leg');
    expect(alikeBoards([board(one), board(one)]).map(({ boards }) => boards.length)).toEqual([2]);
  });

  it('stand apart where their pieces are of two jobs, whose cells have one address', () => {
    const [a, b] = [leg('A Leg'), leg('B Leg')];
    const runs = alikeBoards([board(a), board(a), board(b)]);
    expect(runs.map(({ first, boards }) => [first, boards.length])).toEqual([
      [0, 2],
      [2, 1],
    ]);
  });
});
