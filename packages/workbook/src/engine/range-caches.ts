import type { HyperFormula } from 'hyperformula';
import { type Inside, insideOf } from './inside.ts';

/**
 * Keeps HyperFormula from answering a sum over a condition (SUMIF and the like) with what it was once.
 * A range of values remembers such sums by the addresses of the ranges with the conditions, and forgets
 * them when one of these changes. But a range that goes with the last formula that used it tells nobody,
 * and addresses mean other ranges once rows or columns came or went.
 */
export class RangeCaches {
  readonly #engine: HyperFormula;
  readonly #ranges: Inside['_dependencyGraph']['rangeMapping'];

  constructor(engine: HyperFormula) {
    this.#engine = engine;
    this.#ranges = insideOf(engine)._dependencyGraph.rangeMapping;
    const remove = this.#ranges.removeVertexIfExists.bind(this.#ranges);
    this.#ranges.removeVertexIfExists = (range) => {
      range.clearCache();
      remove(range);
    };
  }

  /** Forgets everything: rows, columns or sheets came or went. */
  clear(): void {
    for (const name of this.#engine.getSheetNames()) {
      const sheet = this.#engine.getSheetId(name);
      if (sheet === undefined) continue;
      for (const range of this.#ranges.rangesInSheet(sheet)) range.clearCache();
    }
  }
}
