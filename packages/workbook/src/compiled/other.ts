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
    if (!this.#follows(told)) {
      this.#calculator.destroy();
      this.#calculator = buildCalculator(this.#state);
    }
    return this.#calculator;
  }

  /** An engine loses count where results spread, and may throw at the next change (rules A2, A3). */
  #follows(told: Parameters<Calculator['setCells']>[0]): boolean {
    try {
      this.#calculator.setCells(told);
      return !this.#calculator.stale;
    } catch {
      return false;
    }
  }

  destroy(): void {
    this.#calculator.destroy();
  }
}
