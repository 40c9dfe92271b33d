import {
  type At,
  type BookState,
  type CellDocument,
  CHECKS_SHEET,
  type CheckDocument,
  formulaOf,
  type Step,
} from '@kerfbook/document';
import { type Lazy, NotLoaded } from '@kerfbook/functions';
import type { CellValue } from '../api.ts';
import type {
  Differing,
  Engine,
  Evaluated,
  MakeEngine,
  Onward,
  Pace,
  Recalculated,
} from '../port.ts';
import { cellSentence } from '../results/sentences.ts';
import { CompiledBook } from './book.ts';
import { Doubts } from './doubts.ts';
import { compiles } from './dry.ts';
import { ShownValues } from './shown-values.ts';
import { Trial } from './trial.ts';

/** Another engine, which may come late (rule V3). */
export type OtherEngine = Pick<Lazy<MakeEngine>, 'isLoaded' | 'need'>;

/** A workbook that is compiled whole, or as far as it goes while there is no other engine. */
interface Whole {
  readonly book: CompiledBook;
  readonly values: ShownValues;
  readonly trial: Trial;
  readonly doubts: Doubts;
}

/**
 * The engine that works out compiled formulas. A workbook that holds a formula which is not compiled, or
 * whose formulas may cost too much together, is handed to the other engine as a whole, and taken back once
 * all of it is compiled again.
 */
export class CompiledEngine implements Engine {
  #state: BookState;
  readonly #makeOther: OtherEngine;
  #whole: Whole | undefined;
  /** Carries the workbook while it is not whole. */
  #other: Engine | undefined;
  /** Why it is not: the cells whose formulas are left; none where all of them cost too much. */
  #left: LeftCell[] = [];
  /** Works single formulas out that are not compiled, until the next change. */
  #asked: Engine | undefined;

  /** @param onward hears how much of the workbook is compiled and worked out */
  constructor(state: BookState, other: OtherEngine, onward?: Onward) {
    this.#state = state;
    this.#makeOther = other;
    this.#begin(state, onward);
  }

  /** The workbook is compiled whole. */
  get isWhole(): boolean {
    return this.#whole !== undefined;
  }

  #begin(state: BookState, onward?: Onward): void {
    this.destroy();
    this.#state = state;
    const book = new CompiledBook(state, onward);
    if (this.#needsOther(book)) {
      onward?.(0.5, true);
      this.#handOn(book);
      return;
    }
    book.workOut(onward);
    const values = new ShownValues(book);
    const doubts = new Doubts(book);
    if (doubts.follow()) book.goOn();
    this.#whole = { book, values, trial: new Trial(book, values), doubts };
  }

  #handOn(book: CompiledBook): void {
    this.destroy();
    this.#left = leftCells(book);
    this.#whole = undefined;
    this.#other = this.#makeOther.need()(book.state);
  }

  follow(steps: readonly Step[], pace?: Pace): Recalculated {
    const last = steps.at(-1);
    if (last === undefined) return NOTHING;
    this.#forget();
    this.#state = last.after;
    if (steps.some(readsOtherwise)) {
      this.#begin(last.after);
      return { ...NONE, anew: true };
    }
    return this.#whole === undefined
      ? this.#followOther(steps, pace)
      : this.#followWhole(steps, pace);
  }

  #followWhole(steps: readonly Step[], pace?: Pace): Recalculated {
    const { book, doubts } = this.#whole as Whole;
    const structure = steps.some(changesStructure);
    const before = structure && book.pending ? book.goOn() : NONE;
    const differ = book.follow(steps, structure ? undefined : pace);
    if (this.#needsOther(book)) {
      const all = together([before, differ, book.restingOn(book.left)]);
      this.#handOn(book);
      return { ...all, anew: true };
    }
    const doubted = doubts.follow() ? book.goOn(pace) : NONE;
    if (isNone(before) && isNone(doubted)) return { ...differ, anew: false };
    return { ...together([before, differ, doubted]), anew: !isNone(before) };
  }

  #followOther(steps: readonly Step[], pace?: Pace): Recalculated {
    const state = this.#state;
    const wasLeft = this.#left.length > 0;
    this.#left.push(...leftIn(steps));
    for (let last = this.#left.at(-1); last !== undefined && !last.isIn(state); ) {
      this.#left.pop();
      last = this.#left.at(-1);
    }
    // Where all cost too much together, something has to go before it is tried again.
    if (this.#left.length > 0 || !(wasLeft || steps.some(takesFormulasOut))) {
      return (this.#other as Engine).follow(steps, pace);
    }
    this.#begin(state);
    return { ...NONE, anew: true };
  }

  get pending(): boolean {
    return this.#whole?.book.pending ?? this.#other?.pending ?? false;
  }

  goOn(pace?: Pace): Differing {
    return this.#whole?.book.goOn(pace) ?? this.#other?.goOn(pace) ?? NONE;
  }

  restart(state: BookState): void {
    this.#begin(state);
  }

  value(at: At): CellValue {
    return this.#values.value(at);
  }

  precedents(at: At): readonly At[] {
    return this.#values.precedents(at);
  }

  dependents(at: At): readonly At[] {
    return this.#values.dependents(at);
  }

  get #values(): ShownValues | Engine {
    return this.#whole?.values ?? (this.#other as Engine);
  }

  evaluate(formula: string, sheet: string): Evaluated {
    if (this.#whole === undefined) return (this.#other as Engine).evaluate(formula, sheet);
    const value = this.#whole.trial.evaluate(formula, sheet);
    if (value !== undefined) return value;
    if (!this.#makeOther.isLoaded) {
      this.#doWithout();
      return { kind: 'error', error: { word: '#ERROR!', says: cellSentence('E21') } };
    }
    this.#asked ??= this.#makeOther.need()(this.#state);
    return this.#asked.evaluate(formula, sheet);
  }

  /** The other engine has to carry the workbook, and can. */
  #needsOther(book: CompiledBook): boolean {
    if (book.isWhole) return false;
    if (!this.#makeOther.isLoaded) this.#doWithout();
    return this.#makeOther.isLoaded;
  }

  /** The other engine is on its way: it is noted that formulas had to do without it (rule V3). */
  #doWithout(): void {
    try {
      this.#makeOther.need();
    } catch (reason) {
      if (!(reason instanceof NotLoaded)) throw reason;
    }
  }

  #forget(): void {
    this.#asked?.destroy();
    this.#asked = undefined;
  }

  destroy(): void {
    this.#forget();
    this.#other?.destroy();
    this.#other = undefined;
    this.#whole = undefined;
  }
}

/** Entries are read, and refused, by the workbook's units and money. */
const readsOtherwise = ({ change }: Step): boolean =>
  change.change === 'head' && (change.set.units !== undefined || change.set.currency !== undefined);

const NONE: Differing = { cells: [], checks: [] };
const NOTHING: Recalculated = { ...NONE, anew: false };

const isNone = ({ cells, checks }: Differing): boolean => cells.length + checks.length === 0;

function together(all: readonly Differing[]): Differing {
  const cells = all.flatMap((one) => one.cells);
  const known = new Map(cells.map((at) => [`${at.sheet} ${at.row} ${at.column}`, at]));
  return { cells: [...known.values()], checks: [...new Set(all.flatMap(({ checks }) => checks))] };
}

/** A cell whose formula is left to the other engine. */
interface LeftCell {
  /** It is still there with that formula. */
  isIn(state: BookState): boolean;
}

/** The cells whose formulas a compiled workbook leaves. */
const leftCells = (book: CompiledBook): LeftCell[] =>
  book.leftOut().map(({ at: { sheet, row, column } }) => {
    if (sheet === CHECKS_SHEET) return leftCheck(book.state.checks[row]);
    const { state } = book;
    return leftCell(sheet, state.rowId(sheet, row), state.columnId(sheet, column), state);
  });

function leftCheck({ id, formula }: Partial<CheckDocument> = {}): LeftCell {
  const isIt = (check: CheckDocument): boolean => check.id === id && check.formula === formula;
  return { isIn: ({ checks }) => checks.some(isIt) };
}

function leftCell(id: string, row = '', column = '', before: BookState): LeftCell {
  const textIn = (state: BookState): string | undefined => {
    const sheet = state.sheet(id);
    return formulaIn(sheet?.rows[sheet.rowIndex(row) ?? -1]?.cells.get(column));
  };
  const text = textIn(before);
  return { isIn: (state) => text !== undefined && textIn(state) === text };
}

/** The cells whose formulas come with changes and would be left. */
function leftIn(steps: readonly Step[]): readonly LeftCell[] {
  return steps.flatMap(({ change, after }) => {
    if (change.change === 'cells') {
      return change.cells.flatMap(({ row, column, cell }) =>
        cell !== null && isLeft(cell, change.sheet, after)
          ? leftCell(change.sheet, row, column, after)
          : [],
      );
    }
    if (change.change !== 'insert' || change.list !== 'rows') return [];
    return change.items.flatMap(({ id, cells = {} }) =>
      Object.entries(cells).flatMap(([column, cell]) =>
        isLeft(cell, change.sheet, after) ? leftCell(change.sheet, id, column, after) : [],
      ),
    );
  });
}

function isLeft(cell: CellDocument, sheet: string, state: BookState): boolean {
  const formula = cell.override === undefined ? formulaOf(cell) : undefined;
  return formula !== undefined && !compiles(formula, sheet, state);
}

const formulaIn = (cell: CellDocument | undefined): string | undefined =>
  cell?.override === undefined ? cell?.formula : undefined;

/** Rows and columns that come last change the place of nothing. */
function changesStructure({ change, before }: Step): boolean {
  if (change.change === 'cells' || change.change === 'head') return false;
  if (change.change !== 'insert' || (change.list !== 'rows' && change.list !== 'columns'))
    return true;
  return before.sheet(change.sheet)?.[change.list].at(-1)?.id !== change.after;
}

/** Whether formulas may be gone with a change. */
function takesFormulasOut({ change, before }: Step): boolean {
  if (change.change === 'remove') return true;
  if (change.change !== 'cells') return false;
  const sheet = before.sheet(change.sheet);
  return change.cells.some(
    ({ row, column }) =>
      formulaIn(sheet?.rows[sheet.rowIndex(row) ?? -1]?.cells.get(column)) !== undefined,
  );
}
