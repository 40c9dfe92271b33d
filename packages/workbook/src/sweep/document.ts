import { type At, type BookDocument, BookState, CHECKS_SHEET, keptByIds } from '@kerfbook/document';
import type { CellValue } from '../api.ts';
import { placeWritten } from '../book/place-written.ts';
import { CompiledBook } from '../compiled/book.ts';
import { ShownValues } from '../compiled/shown-values.ts';
import { buildCalculator, type Calculator } from '../follow/build.ts';
import { BUDGET } from '../results/meter.ts';
import { leaveTo } from './judged.ts';
import { Other } from './other.ts';
import { type Slice, type SliceSources, sliceOf } from './slice.ts';

/** A formula that the compiled evaluator leaves to the other engine. */
export interface LeftFormula {
  /** `Base!B7`, or `check "name"`. */
  readonly where: string;
  /** Where its cell stands; a check's, on the sheet of checks ({@link CHECKS_SHEET}). */
  readonly at: At;
  /** What in it is not compiled: a function's name, or a few words. */
  readonly word: string;
  /** It can be read; of one that cannot, its error says so. */
  readonly readable: boolean;
}

/**
 * A workbook whose formulas are compiled once. It is a world of its own: nothing that is asked of it
 * touches an open workbook. Needs no page, so that it may live in a worker.
 */
export class CompiledDocument {
  readonly #document: BookDocument;
  readonly #state: BookState;
  readonly #book: CompiledBook;
  readonly #shown: ShownValues;
  /** The other engine, where it has something to work out. */
  readonly #calculator: Calculator | undefined;

  private constructor(document: BookDocument) {
    this.#document = document;
    this.#state = keptByIds(BookState.of(document));
    this.#book = new CompiledBook(this.#state);
    this.#shown = new ShownValues(this.#book);
    if (this.#book.left.size === 0 && this.#book.cost <= BUDGET.together) {
      this.#book.workOut();
      return;
    }
    this.#calculator = buildCalculator({ state: this.#state });
    leaveTo(this.#book, this.#calculator);
  }

  /** Compiles a document that `loadText` or `loadValue` has checked. */
  static of(document: BookDocument): CompiledDocument {
    return new CompiledDocument(document);
  }

  /** Formulas that are left to the other engine, in the order of the workbook. */
  left(): readonly LeftFormula[] {
    return this.#book
      .leftOut()
      .map((one) => ({ ...one, where: placeWritten(this.#state, one.at) }));
  }

  /** How many cells and checks have a formula that is compiled. */
  get compiled(): number {
    return this.#book.entries.size - this.#book.left.size;
  }

  /** The value of a cell as it stands. */
  value(at: At): CellValue {
    const [value] = this.slice([], [at]).run([]);
    return value ?? { kind: 'empty' };
  }

  /**
   * From these inputs to these results. Cells in neither keep the values they have.
   *
   * @throws RangeError where an input holds a formula
   */
  slice(inputs: readonly At[], results: readonly At[]): Slice {
    return sliceOf(this.#sources, inputs, results);
  }

  /** Where a named cell is. */
  named(name: string): At | undefined {
    return this.#state.named(name);
  }

  /** Lets go of the engine beside it; nothing may be asked after it. */
  destroy(): void {
    this.#calculator?.destroy();
  }

  get #sources(): SliceSources {
    return {
      book: this.#book,
      shown: this.#shown,
      calculator: this.#calculator,
      another: () => new Other(this.#document),
    };
  }
}
