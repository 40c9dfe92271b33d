import { type At, type BookDocument, BookState, keptByIds, type Scalar } from '@kerfbook/document';
import { buildCalculator } from '../build-calculator.ts';
import type { Calculator } from '../engine/calculator.ts';

/** The other engine with a workbook of its own, whose inputs are set again and again. */
export class Other {
  readonly #state: BookState;
  #calculator: Calculator;

  constructor(document: BookDocument) {
    this.#state = keptByIds(new BookState(document));
    this.#calculator = buildCalculator(this.#state);
  }

  /** The engine after these cells got these values. */
  set(cells: readonly At[], values: readonly (Scalar | null)[]): Calculator {
    const told = cells.map((at, i) => {
      const value = values[i] ?? null;
      const content = typeof value === 'string' ? { text: value } : value;
      this.#state
        .sheet(at.sheet)
        ?.setCell(at.row, at.column, value === null ? undefined : { value });
      return { ...at, content };
    });
    this.#calculator.setCells(told);
    // Where results spread, the engine may have lost count.
    if (this.#calculator.stale) {
      this.#calculator.destroy();
      this.#calculator = buildCalculator(this.#state);
    }
    return this.#calculator;
  }

  destroy(): void {
    this.#calculator.destroy();
  }
}
