/** Whose hands it takes where nobody is named. */
export const MAKER = 'the maker';

/** A piece of work, as the operations table of a workbook has it. */
export interface Operation {
  /** What it is known by, whatever it is called and wherever it stands. */
  readonly id: string;
  /** What is done. */
  readonly name: string;
  /** Hours of work, in working hours. */
  readonly handsOn: number;
  /** Hours it is then left alone, by the clock, at night and on days off too. */
  readonly waiting: number;
  /** Ids of what has to be done before it, its waiting included. */
  readonly after: readonly string[];
  /** Whose hands it takes, one of each; the maker’s where it is nobody. Each does one thing at a time. */
  readonly who: readonly string[];
  /** What it needs that is there once, held through its waiting too, as clamps are while glue sets. */
  readonly machines: readonly string[];
  /** The fewest hours of work it takes; as many as `handsOn` where that is not known. */
  readonly least: number;
  /** The most hours of work it takes; as many as `handsOn` where that is not known. */
  readonly most: number;
  /** A day before which it does not begin. */
  readonly notBefore?: number;
}

/** Several pieces of work that make one thing. */
export interface Job {
  /** What is made. */
  readonly name: string;
  /** All that is done for it. */
  readonly operations: readonly Operation[];
  /** The lower, the sooner: what is done first where two jobs want the same hands. Jobs alike share them by what is due. */
  readonly priority?: number;
  /** A day before which none of it begins. */
  readonly notBefore?: number;
}

/** There is work to do in it, or to wait for. */
export const takesTime = ({ handsOn, waiting }: Operation): boolean => handsOn > 0 || waiting > 0;
