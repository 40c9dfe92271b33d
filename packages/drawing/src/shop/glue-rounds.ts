/** One round of clamping: how many pieces go in, how many come out. */
export interface GlueRound {
  /** Pieces that go in. */
  readonly before: number;
  /** Pieces that come out. */
  readonly after: number;
  /** Joints that are glued. */
  readonly joints: number;
}

/** Boards glued to each other, by their numbers from one edge of the panel. */
export interface GluedBoards {
  /** The first of them. */
  readonly from: number;
  /** The last of them. */
  readonly to: number;
}

/** Rounds of gluing when each clamp-up joins so many pieces into one. */
export function glueRounds(boards: number, atOnce: number): readonly GlueRound[] {
  const rounds: GlueRound[] = [];
  let before = boards;
  while (before > 1 && atOnce > 1) {
    const after = Math.ceil(before / atOnce);
    rounds.push({ before, after, joints: before - after });
    before = after;
  }
  return rounds;
}

/**
 * What each round puts together, by the numbers of the boards from one edge of the panel: each group is what one
 * clamp-up joins; a piece left over at the edge is a group of its own, which waits for a later round.
 */
export function glueClampUps(
  boards: number,
  atOnce: number,
): readonly (readonly (readonly GluedBoards[])[])[] {
  let pieces: readonly GluedBoards[] = Array.from({ length: boards }, (_, i) => ({
    from: i + 1,
    to: i + 1,
  }));
  return glueRounds(boards, atOnce).map(() => {
    const groups = Array.from({ length: Math.ceil(pieces.length / atOnce) }, (_, i) =>
      pieces.slice(i * atOnce, (i + 1) * atOnce),
    );
    pieces = groups.map((group) => ({ from: group[0]?.from ?? 0, to: group.at(-1)?.to ?? 0 }));
    return groups;
  });
}

/** The same in words: `1 and 2`, then `1–2 and 3–4`. */
export const glueGroups = (boards: number, atOnce: number): readonly string[] =>
  glueClampUps(boards, atOnce).map((groups) =>
    groups
      .filter((group) => group.length > 1)
      .map((group) => group.map(pieceText).join(' and '))
      .join(', '),
  );

const pieceText = ({ from, to }: GluedBoards): string =>
  from === to ? `${from}` : `${from}–${to}`;
