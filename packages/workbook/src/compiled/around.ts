import type { KeptReference } from '@kerfbook/document';
import type { Named, Standing } from '@kerfbook/functions/computing';
import type { OwnKind, UnitSystem } from '@kerfbook/wood';
import type { Aggregate } from './aggregates.ts';
import type { Closure } from './closure.ts';
import type { Fast, FastRuns } from './fast.ts';

/** Cells of a rectangle, row by row. */
export interface Rectangle {
  readonly key: string;
  readonly cells: Int32Array;
  readonly width: number;
}

/** Where the things a formula names are. */
export interface Around {
  readonly system: UnitSystem;
  /** What was made for formulas of numbers alone. */
  readonly runs: FastRuns;
  /** The slot of one cell; nothing where it is gone. */
  cell(reference: KeptReference): number | undefined;
  /** The cells of a range; `unfit` where it is turned round, or whole rows or columns. */
  range(reference: KeptReference): Rectangle | 'gone' | 'unfit';
  /** The slot of the cell that a name stands for. */
  named(name: string): number | undefined;
  /** The slot of a number that stands in a formula. */
  constant(value: number): number;
  /** The node in which a function over a range is kept, so that many formulas share it; left out for few cells. */
  shared(name: string, aggregate: Aggregate, range: Rectangle): number | undefined;
  /** A name that lies in a loop itself: whoever uses it gets the loop as its own. */
  inLoop(name: string): boolean;
}

/** An own table that a formula's functions look in first. */
export interface OwnTable {
  readonly kind: OwnKind;
  readonly area: Rectangle;
}

/** A formula that can be worked out, and what it uses. */
export interface Compiled {
  /** Left out where it is made when it is needed first. */
  readonly work: Closure | undefined;
  /** The same with numbers alone, where that will do. */
  readonly fast: Fast | undefined;
  readonly cells: readonly number[];
  readonly ranges: readonly Rectangle[];
  /** It holds for where cells stand now; or also for what cells hold beside their values. */
  readonly looksAt: 'shape' | 'content' | undefined;
  /** It comes to something else each time it is worked out. */
  readonly changes: boolean;
}

/** Where a formula stands. */
export interface Here {
  readonly standing: Standing;
  /** What a reference names; nothing where that is gone. */
  named(reference: KeptReference): Named | undefined;
}
