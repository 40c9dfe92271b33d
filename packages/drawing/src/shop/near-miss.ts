import { listed } from '@kerfbook/wood';
import type { Kerf } from './kerf.ts';
import type { PlanGroup, PlannedBoard } from './plan.ts';

/** What is too long by no more than a sixteenth of an inch is so by a hair. */
const HAIR = 25.4 / 16;
/** Lengths that differ by less are the same: what converting between inch and millimetre adds. */
const NEAR = 1e-3;
/** So many are said of a section: more say no more. */
const MOST = 2;

const COUNTED = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six'];

/**
 * Why a section takes one more board than a maker reckons: the pieces of a board that miss what is left of another
 * only by the saw's cuts, or by a hair. One sentence each.
 */
export function nearMisses(
  { boards }: Pick<PlanGroup, 'boards'>,
  { mm: kerf }: Pick<Kerf, 'mm'>,
  format: (mm: number) => string,
): readonly string[] {
  const says = new Set<string>();
  // Pairs of many boards: each sentence is found among the first of them.
  for (const [i, board] of boards.slice(0, 60).entries()) {
    for (const other of boards.slice(i + 1, 60)) {
      const one = missOf(board, other, kerf) ?? missOf(other, board, kerf);
      if (one === undefined) continue;
      says.add(sentence(one, kerf, format));
      if (says.size === MOST) return [...says];
    }
  }
  return [...says];
}

interface Miss {
  readonly lengths: readonly number[];
  readonly board: number;
  /** What is left of it once its ends are trimmed. */
  readonly room: number;
}

/** All that comes of two boards, where one of them nearly holds it; nothing where the difference is more than that. */
function missOf(board: PlannedBoard, other: PlannedBoard, kerf: number): Miss | undefined {
  const own = other.pieces.map(({ length }) => length);
  const need = sumOf(own) + (own.length - 1) * kerf;
  const missing = need - board.offcut;
  if (own.length === 0 || missing <= NEAR) return undefined;
  const lengths = [...board.pieces.map(({ length }) => length), ...own];
  const cuts = (lengths.length - 1) * kerf;
  // The first piece begins where the end is trimmed, and the other end loses as much.
  const room = board.stock.length - 2 * (board.pieces[0]?.at ?? 0);
  const over = sumOf(lengths) - room;
  // All of it but the cuts fits, or a hair is missing.
  if (over > HAIR + NEAR || over + cuts <= NEAR) return undefined;
  return { lengths: lengths.sort((a, b) => b - a), board: board.stock.length, room };
}

const sumOf = (lengths: readonly number[]): number =>
  lengths.reduce((sum, length) => sum + length, 0);

function sentence(
  { lengths, board, room }: Miss,
  kerf: number,
  format: (mm: number) => string,
): string {
  const [first = 0] = lengths;
  const alike = lengths.every((length) => Math.abs(length - first) < NEAR);
  const what = alike
    ? `${COUNTED[lengths.length] ?? lengths.length} of ${format(first)}`
    : listed(lengths.map(format));
  const sum = sumOf(lengths);
  const cuts = (lengths.length - 1) * kerf;
  const on =
    board - room < NEAR
      ? format(board)
      : `the ${format(room)} that trimming leaves of ${format(board)}`;
  if (sum <= room + NEAR) {
    return `${what} do not fit on ${on}: the saw takes ${format(cuts)}.`;
  }
  const saw = cuts < NEAR ? '' : ` with ${format(cuts)} for the saw`;
  return `${what} do not fit on ${on}: they take ${format(sum + cuts)}${saw}.`;
}
