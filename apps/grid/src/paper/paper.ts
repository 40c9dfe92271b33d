/** Sheets of paper a shop has, mm. A4: ISO 216; Letter: ASME Y14.1, size A (8 1/2 by 11 in). */
export const PAPERS = {
  a4: { says: 'A4', width: 210, height: 297 },
  letter: { says: 'US Letter', width: 215.9, height: 279.4 },
} as const;

export type PaperName = keyof typeof PAPERS;

export interface Page {
  readonly paper: PaperName;
  /** Wider than high. */
  readonly landscape: boolean;
}

/** What the edge of a page leaves free: printers grip there. mm. */
export const MARGIN = 13;
/** Room for the lines at the head of a page, mm. */
export const HEAD = 13;
/** Room for the line at the foot of a page, mm. */
export const FOOT = 8;
/** A block is no higher than this share of a page's field, so that a page it does not fit on is not left empty. */
export const TALLEST = 0.6;

/** Width and height of a page as it lies, mm. */
export function pageSize({ paper, landscape }: Page): { width: number; height: number } {
  const { width, height } = PAPERS[paper];
  return landscape ? { width: height, height: width } : { width, height };
}

/** What a page has room for, mm. */
export function fieldSize(page: Page): { width: number; height: number } {
  const { width, height } = pageSize(page);
  return { width: width - 2 * MARGIN, height: height - 2 * MARGIN - HEAD - FOOT };
}

/** A piece of paper content that is never cut in two. */
export interface Measured {
  /** mm */
  readonly height: number;
  /** The next piece comes on the same page: a heading goes with what it heads. */
  readonly keep?: boolean;
  /** The same, unless the page before would be left nearly empty for it: rows of one part go together. */
  readonly together?: boolean;
  /** A part of its own begins with it: what fits on one page is not broken over two where that costs little. */
  readonly section?: boolean;
  /** Height of what is repeated above it where a page begins with it: the head of its table, mm. */
  readonly repeats?: number;
}

/** A page may be left for the next one from here on, as a share of its height. */
const FULL_ENOUGH = 0.6;

/** A page that is used less than this is filled first, as a share of its height: more than the third it has to be. */
const NEARLY_EMPTY = 0.4;

/**
 * Which pieces stand on which page, as the index of the first piece of each: as many as fit, in order.
 * A piece taller than a page has a page of its own.
 */
export function pageStarts(pieces: readonly Measured[], height: number): readonly number[] {
  const starts: number[] = [];
  let used = 0;
  // What goes together and is broken all the same is broken where the page is full.
  let broken = -1;
  for (let at = 0; at < pieces.length; ) {
    const piece = pieces[at];
    if (piece === undefined) break;
    const isEmpty = starts.length > 0 && used < height * NEARLY_EMPTY;
    const whole = groupEnd(pieces, at, height, true);
    const fits = used + heightOf(pieces.slice(at, whole + 1)) <= height;
    if (isEmpty && !fits) broken = Math.max(broken, whole);
    const end = at <= broken ? groupEnd(pieces, at, height, false) : whole;
    const needed = heightOf(pieces.slice(at, end + 1));
    const begins =
      starts.length === 0 || used + needed > height || wantsPage(pieces, at, used, height);
    if (begins) {
      starts.push(at);
      used = piece.repeats ?? 0;
    }
    used += needed;
    at = end + 1;
  }
  return starts;
}

/** A heading and what it heads are one piece, as far as a page has room: the index of the last of them. */
function groupEnd(
  pieces: readonly Measured[],
  at: number,
  height: number,
  together: boolean,
): number {
  let end = at;
  const goesOn = (one: Measured | undefined): boolean =>
    one?.keep === true || (together && one?.together === true);
  while (goesOn(pieces[end]) && end + 1 < pieces.length) {
    if (heightOf(pieces.slice(at, end + 2)) > height) break;
    end += 1;
  }
  return end;
}

/** Whether a part that fits on a page is better begun on the next one. */
function wantsPage(pieces: readonly Measured[], at: number, used: number, height: number): boolean {
  if (pieces[at]?.section !== true || used < height * FULL_ENOUGH) return false;
  const next = pieces.findIndex(({ section }, i) => i > at && section === true);
  const whole = heightOf(pieces.slice(at, next < 0 ? pieces.length : next));
  return whole <= height && used + whole > height;
}

const heightOf = (pieces: readonly Measured[]): number =>
  pieces.reduce((sum, { height }) => sum + height, 0);
