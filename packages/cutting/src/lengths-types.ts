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
  /** Above 0. */
  readonly length: number;
  /** Price of one board, 0 or more. */
  readonly price: number;
  /** How many there are; as many as wanted where left out. */
  readonly supply?: number;
}

/** One piece that lies in the shop already: free, there once, its ends clean. */
export interface RackOffcut {
  /** What it is called in the plan. */
  readonly key: string;
  /** Above 0. */
  readonly length: number;
}

/**
 * `cell` spends about as much work as a cell of a sheet may; `proof` up to a few thousand times
 * that. Work is counted in steps, never in time, so both always give the same plan.
 */
export type Effort = 'cell' | 'proof';

/**
 * What is to be cut and from what. Lengths are all in one unit, money in one currency: the
 * caller's.
 */
export interface LengthsJob {
  /** What is needed. */
  readonly parts: readonly LengthPart[];
  /** What can be bought. */
  readonly stock: readonly StockLength[];
  /** What lies in the shop already; nothing where left out. */
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
  /** As the job calls it. */
  readonly key: string;
  /** Finished length. */
  readonly length: number;
  /** From the board's end to where the part begins, trim included. */
  readonly start: number;
}

/** A board and how it is cut. */
export interface PlannedBoard {
  /** Which of the job's stock lengths, or which of its rack pieces. */
  readonly from: 'stock' | 'rack';
  /** Counted from 0, among the job's stock lengths or its rack pieces. */
  readonly index: number;
  /** Before it is trimmed. */
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

/** What to buy and how to cut it. */
export interface LengthsPlan {
  /** Boards bought and rack pieces used, each with its parts. */
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
  /** How many boards are bought in all. */
  readonly bought: number;
  /** Where the length that is bought goes. */
  readonly totals: LengthTotals;
}

/** Sums over the bought boards alone: what the rack gives was paid for before. */
export interface LengthTotals {
  /** Length of all boards that are bought. */
  readonly bought: number;
  /** Length of the parts that come from them. */
  readonly parts: number;
  /** Length that saw cuts take. */
  readonly sawdust: number;
  /** Length that is trimmed off ends. */
  readonly trim: number;
  /** Length that remains in pieces. */
  readonly offcuts: number;
  /** Share of the length bought that is no part: `1 − parts / bought`; 0 where nothing is bought. */
  readonly waste: number;
  /** Share of the length bought that is left as offcuts: `offcuts / bought`. */
  readonly offcutShare: number;
}
