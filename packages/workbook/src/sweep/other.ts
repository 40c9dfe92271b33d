import {
  type At,
  applyChanges,
  type BookDocument,
  BookState,
  type Change,
  keptByIds,
  type Scalar,
} from '@kerfbook/document';
import { givenCell } from '../book/held.ts';
import { buildCalculator, type Calculator } from '../follow/build.ts';
import { contentOf } from '../follow/content.ts';

/** The other engine with a workbook of its own, whose inputs are set again and again. */
export class Other {
  readonly #now: { state: BookState };
  #calculator: Calculator;

  constructor(document: BookDocument) {
    this.#now = { state: keptByIds(BookState.of(document)) };
    this.#calculator = buildCalculator(this.#now);
  }

  /** The engine after these cells got these values. */
  set(cells: readonly At[], values: readonly (Scalar | null)[]): Calculator {
    const changes = cells.map((at, i) => this.#change(at, values[i] ?? null));
    this.#now.state = applyChanges(this.#now.state, changes).state;
    const { state } = this.#now;
    const contents = cells.map((at) => ({
      ...at,
      content: contentOf(state.cell(at), at.sheet, state),
    }));
    if (!this.#follows(contents)) {
      this.#calculator.destroy();
      this.#calculator = buildCalculator(this.#now);
    }
    return this.#calculator;
  }

  #change({ sheet, row, column }: At, value: Scalar | null): Change {
    const { state } = this.#now;
    const place = {
      row: state.rowId(sheet, row) ?? '',
      column: state.columnId(sheet, column) ?? '',
    };
    const before = state.cell({ sheet, row, column }) ?? {};
    const { value: _value, typed: _typed, override: _override, ...traits } = before;
    const cell = value === null ? traits : givenCell(before, value);
    return { change: 'cells', sheet, cells: [{ ...place, cell }] };
  }

  /** An engine loses count where results spread, and may throw at the next change (rules A2, A3). */
  #follows(contents: Parameters<Calculator['setCells']>[0]): boolean {
    try {
      this.#calculator.setCells(contents);
      return !this.#calculator.stale;
    } catch {
      return false;
    }
  }

  destroy(): void {
    this.#calculator.destroy();
  }
}
