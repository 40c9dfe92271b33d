import type { PlannedBoard } from './plan.ts';

/** Boards that follow each other and are cut alike. */
export interface AlikeBoards {
  /** Counted from 0. */
  readonly first: number;
  /** In their order. */
  readonly boards: readonly PlannedBoard[];
}

/** Boards that follow each other and are cut alike stand together, so that a stop is set once. */
export function alikeBoards(boards: readonly PlannedBoard[]): readonly AlikeBoards[] {
  const runs: { first: number; boards: PlannedBoard[] }[] = [];
  // Cells of several workbooks have one address: a line is known by itself.
  const lines = new Map<object, number>();
  const lineOf = (line: object): number => {
    const known = lines.get(line) ?? lines.size;
    lines.set(line, known);
    return known;
  };
  const key = ({ stock, pieces }: PlannedBoard): string =>
    JSON.stringify([
      lineOf(stock),
      pieces.map(({ item, length, strips }) => [lineOf(item), length, strips]),
    ]);
  for (const [i, board] of boards.entries()) {
    const run = runs.at(-1);
    const [like] = run?.boards ?? [];
    if (run !== undefined && like !== undefined && key(like) === key(board)) run.boards.push(board);
    else runs.push({ first: i, boards: [board] });
  }
  return runs;
}
