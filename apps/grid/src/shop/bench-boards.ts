import type { CutItem, ShopPlan } from '@kerfbook/drawing';
import type { At } from '@kerfbook/workbook';
import { type BenchLine, tickKey } from './ticks.ts';

/** What the row of a cell is known by, wherever it stands. */
export type RowOf = (at: At) => string | undefined;

/** One piece to cut: which line of the cut list it is of, and which of its pieces. */
export interface BenchPiece {
  readonly item: BenchLine;
  /** Counted from 0. */
  readonly piece: number;
}

/** A board or sheet of the plan with the pieces that come out of it, in the order in which they are cut. */
export interface BenchBoard {
  readonly key: string;
  /** `Board 2 of 10` */
  readonly says: string;
  readonly about: string;
  readonly pieces: readonly BenchPiece[];
}

/**
 * The cut list as it is ticked off, and which of its lines each line of the cut list is: rows of one name, size
 * and material are one line; of two materials, each says its own.
 */
export function benchItems(
  items: readonly CutItem[],
  rowOf: RowOf,
): {
  readonly items: readonly BenchLine[];
  readonly lineOf: ReadonlyMap<CutItem, BenchLine>;
} {
  const groups = new Map<string, CutItem[]>();
  for (const item of items) {
    const others = items.some(
      (one) => tickKey(one) === tickKey(item) && one.material !== item.material,
    );
    const key = `${tickKey(item)} | ${others ? item.material : ''}`;
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  const lineOf = new Map<CutItem, BenchLine>();
  const lines = [...groups.entries()].flatMap(([key, group]) => {
    const [own] = group;
    if (own === undefined) return [];
    // Pieces of several rows are counted on: which of them stands where is told of one row alone.
    const { which, ...rest } = own;
    const first = group.length > 1 || which === undefined ? rest : { ...rest, which };
    const count = group.reduce((sum, one) => sum + one.count, 0);
    const apart = !key.endsWith('| ') && first.material !== '';
    const line = {
      ...first,
      count,
      name: apart ? `${first.name} (${first.material})` : first.name,
      rows: group.flatMap(({ at }) => rowOf(at) ?? []),
    };
    for (const one of group) lineOf.set(one, line);
    return [line];
  });
  return { items: lines, lineOf };
}

/**
 * The boards of a plan with each piece told apart, so that a tick on a board and one on a part are the
 * same; what the plan has no board for comes last, under no board.
 */
export function benchBoards(
  { list, plan }: Pick<ShopPlan, 'list' | 'plan'>,
  write: (mm: number) => string,
  rowOf: RowOf,
): {
  readonly items: readonly BenchLine[];
  readonly boards: readonly BenchBoard[];
  readonly without: readonly BenchPiece[];
} {
  const { items, lineOf } = benchItems(list.items, rowOf);
  const next = new Map<string, number>();
  const take = (of: CutItem): BenchPiece => nextOf(lineOf.get(of) ?? { ...of, rows: [] });
  const nextOf = (item: BenchLine): BenchPiece => {
    const key = tickKey(item);
    const piece = next.get(key) ?? 0;
    next.set(key, piece + 1);
    return { item, piece };
  };
  const boards = (plan?.groups ?? []).flatMap((group, g) => [
    ...group.boards.map(
      ({ stock, pieces }, b): BenchBoard => ({
        key: `${g} board ${b}`,
        says: `Board ${b + 1} of ${group.boards.length}`,
        about: about(stock.name, group.material, write(stock.width), write(stock.length)),
        pieces: pieces.flatMap(({ item, strips }) =>
          Array.from({ length: strips }, () => take(item)),
        ),
      }),
    ),
    ...group.panels.map(
      ({ stock, pieces }, p): BenchBoard => ({
        key: `${g} sheet ${p}`,
        says: `Sheet ${p + 1} of ${group.panels.length}`,
        about: about(stock.name, group.material, write(stock.width), write(stock.length)),
        pieces: pieces.map(({ item }) => take(item)),
      }),
    ),
  ]);
  const without = items.flatMap((item) => {
    const planned = next.get(tickKey(item)) ?? 0;
    return Array.from({ length: Math.max(0, item.count - planned) }, () => nextOf(item));
  });
  return { items, boards, without };
}

const about = (name: string, material: string, width: string, length: string): string =>
  [name === '' ? material : name, `${width} × ${length}`].filter((one) => one !== '').join(', ');
