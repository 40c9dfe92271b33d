import type { HyperFormula } from 'hyperformula';
import { demandInside } from './inside.ts';

interface Range {
  clearCache(): void;
}

/** What of HyperFormula's ranges is reached beyond its public face. */
interface Inside {
  readonly _dependencyGraph: {
    readonly rangeMapping: {
      rangesInSheet(sheet: number): Iterable<Range>;
      removeVertexIfExists(range: Range): void;
    };
  };
}

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
    const inside = engine as unknown as Inside;
    const methods = ['rangesInSheet', 'removeVertexIfExists'];
    const home = '_dependencyGraph.rangeMapping';
    demandInside(
      inside,
      methods.map((method) => `${home}.${method}`),
      'range-caches.ts',
    );
    this.#engine = engine;
    this.#ranges = inside._dependencyGraph.rangeMapping;
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
