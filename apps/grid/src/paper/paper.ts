/** Sheets of paper a shop has, mm. A4: ISO 216; Letter: ASME Y14.1, size A (8 1/2 by 11 in). */
export const PAPERS = {
  a4: { says: 'A4', width: 210, height: 297 },
  letter: { says: 'US Letter', width: 215.9, height: 279.4 },
} as const;

export type PaperName = keyof typeof PAPERS;

export interface Page {
  readonly paper: PaperName;
  readonly lying: boolean;
}

/** What the edge of a page leaves free: printers grip there. mm. */
export const MARGIN = 13;
/** Room for the line at the foot of a page, mm. */
export const FOOT = 8;

/** Width and height of a page as it lies, mm. */
export function pageSize({ paper, lying }: Page): { width: number; height: number } {
  const { width, height } = PAPERS[paper];
  return lying ? { width: height, height: width } : { width, height };
}

/** What a page has room for, mm. */
export function fieldSize(page: Page): { width: number; height: number } {
  const { width, height } = pageSize(page);
  return { width: width - 2 * MARGIN, height: height - 2 * MARGIN - FOOT };
}

/** A piece of paper content that is never cut in two. */
export interface Measured {
  /** mm */
  readonly height: number;
  /** The next piece comes on the same page: a heading goes with what it heads. */
  readonly keep?: boolean;
  /** A new page begins with it. */
  readonly fresh?: boolean;
  /** Height of what is repeated above it where a page begins with it: the head of its table, mm. */
  readonly repeats?: number;
}

/**
 * Which pieces stand on which page, as the index of the first piece of each: as many as fit, in order.
 * A piece taller than a page has a page of its own.
 */
export function pageStarts(pieces: readonly Measured[], height: number): readonly number[] {
  const starts: number[] = [];
  let used = 0;
  for (let at = 0; at < pieces.length; ) {
    const piece = pieces[at];
    if (piece === undefined) break;
    // A heading and what it heads are one piece here.
    let end = at;
    while (pieces[end]?.keep === true && end + 1 < pieces.length) end += 1;
    const group = pieces.slice(at, end + 1);
    const needed = group.reduce((sum, one) => sum + one.height, 0);
    const begins = starts.length === 0 || piece.fresh === true || used + needed > height;
    if (begins) {
      starts.push(at);
      used = piece.repeats ?? 0;
    }
    used += needed;
    at = end + 1;
  }
  return starts;
}
