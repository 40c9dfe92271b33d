import type { CutItem, ShopPlan } from '@kerfbook/drawing';
import { describe, expect, it } from 'vitest';
import { benchBoards, benchItems } from './bench-boards.ts';
import { tickKey } from './ticks.ts';

const item = (name: string, count: number, row: number): CutItem => ({
  name,
  at: { sheet: 's1', row, column: 0 },
  count,
  thickness: 19,
  width: 60,
  length: 700,
  material: 'oak',
});

const rowOf = ({ row }: { readonly row: number }): string => `row ${row}`;

describe('the boards of the bench list', () => {
  const [rail, door] = [item('Rail', 3, 1), item('Door', 2, 2)];
  const stock = { name: 'Board', width: 140, length: 2400 };
  const board = (...pieces: readonly (readonly [CutItem, number])[]) => ({
    stock,
    offcut: 0,
    pieces: pieces.map(([one, strips]) => ({ item: one, length: 700, at: 0, strips })),
  });
  const group = { material: 'oak', boards: [board([rail, 2]), board([rail, 1])], panels: [] };

  it('have every piece once, told apart, and those without a board by themselves', () => {
    const shop = {
      list: { items: [rail, door], materials: [], pieces: 5 },
      plan: { groups: [group] },
    } as unknown as Pick<ShopPlan, 'list' | 'plan'>;
    const { boards, without } = benchBoards(shop, String, rowOf);
    expect(boards.map(({ says, about }) => `${says}: ${about}`)).toEqual([
      'Board 1 of 2: Board, 140 × 2400',
      'Board 2 of 2: Board, 140 × 2400',
    ]);
    const names = (pieces: (typeof boards)[number]['pieces']) =>
      pieces.map((one) => `${one.item.name} ${one.piece}`);
    expect(boards.map(({ pieces }) => names(pieces))).toEqual([['Rail 0', 'Rail 1'], ['Rail 2']]);
    expect(names(without)).toEqual(['Door 0', 'Door 1']);
  });

  it('count rows of one name and size together, and tell two materials apart', () => {
    const pine = { ...item('Rail', 1, 5), material: 'pine' };
    expect(benchItems([rail, item('Rail', 2, 4)], rowOf).items).toMatchObject([
      { name: 'Rail', count: 5, rows: ['row 1', 'row 4'] },
    ]);
    const { items } = benchItems([rail, pine], rowOf);
    expect(items.map(({ name, count }) => `${name} ${count}`)).toEqual([
      'Rail (oak) 3',
      'Rail (pine) 1',
    ]);
    expect(new Set(items.map(tickKey)).size).toBe(2);
  });
});
