/** Parts of one length. Lengths of a job are all in one unit, which is the caller's. */
export interface LengthPart {
  /** What the part is called in the plan and in sentences; need not be unique. */
  readonly key: string;
  /** Finished length, above 0. */
  readonly length: number;
  /** Whole number, 0 or more. */
  readonly count: number;
}

/** A length the store sells. */
export interface StockLength {
  readonly length: number;
  /** Price of one board, 0 or more. */
  readonly price: number;
  /** How many there are; as many as wanted where left out. */
  readonly supply?: number;
}

/** One piece that lies in the shop already: free, there once, its ends clean. */
export interface RackOffcut {
  readonly key: string;
  readonly length: number;
}

/**
 * `cell` spends about as much work as a cell of a sheet may; `proof` up to a few thousand times
 * that. Work is counted in steps, never in time, so both always give the same plan.
 */
export type Effort = 'cell' | 'proof';

export interface LengthsJob {
  readonly parts: readonly LengthPart[];
  readonly stock: readonly StockLength[];
  readonly rack?: readonly RackOffcut[];
  /** Width of a saw cut, 0 where left out. */
  readonly kerf?: number;
  /**
   * Taken once off each end of every bought board, its own saw cut included; 0 where left out. Rack
   * pieces are not trimmed.
   */
  readonly endTrim?: number;
  /** `cell` where left out. */
  readonly effort?: Effort;
}

/** A part where it lies on its board. */
export interface PlacedPart {
  readonly key: string;
  readonly length: number;
  /** From the board's end to where the part begins, trim included. */
  readonly start: number;
}

export interface PlannedBoard {
  /** Which of the job's stock lengths, or which of its rack pieces. */
  readonly from: 'stock' | 'rack';
  readonly index: number;
  readonly length: number;
  /** 0 for a piece of the rack. */
  readonly price: number;
  /** In cutting order, longest first. */
  readonly parts: readonly PlacedPart[];
  /** Saw cuts after parts, each a kerf wide; the last may be narrower where less was left. */
  readonly cuts: number;
  /** What all those cuts turn to sawdust. */
  readonly sawdust: number;
  /** What both ends lose. */
  readonly trim: number;
  /** The piece that remains, 0 where none does. */
  readonly offcut: number;
}

export interface LengthsPlan {
  readonly boards: readonly PlannedBoard[];
  /** Price of all bought boards. */
  readonly cost: number;
  /** No plan can cost less. */
  readonly bound: number;
  /** `cost − bound`. */
  readonly gap: number;
  /** No plan costs less than this one, to a ten-thousandth of the money for each board. */
  readonly proven: boolean;
  /** Boards bought of each stock length, in the job's order. */
  readonly counts: readonly number[];
  readonly bought: number;
  readonly totals: LengthTotals;
}

/** Sums over the bought boards alone: what the rack gives was paid for before. */
export interface LengthTotals {
  readonly bought: number;
  readonly parts: number;
  readonly sawdust: number;
  readonly trim: number;
  readonly offcuts: number;
  /** Share of the length bought that is no part: `1 − parts / bought`; 0 where nothing is bought. */
  readonly waste: number;
  /** Share of the length bought that is left as offcuts: `offcuts / bought`. */
  readonly offcutShare: number;
}
