import {
  type At,
  type BookDocument,
  BookState,
  type CellDocument,
  type Head,
  randomId,
  type Step,
} from '@kerfbook/document';
import { type Lazy, NotLoaded } from '@kerfbook/functions';
import type { UnitSystem } from '@kerfbook/wood';
import type {
  CellValue,
  CellView,
  CheckState,
  Choice,
  NumberSaid,
  Problem,
  SheetView,
  TableView,
} from './api.ts';
import { checkInWords } from './book/check-in-words.ts';
import { checkStates } from './book/checks.ts';
import { choicesOf } from './book/choices.ts';
import { readContext } from './book/context.ts';
import { labelAt } from './book/explain.ts';
import { entryProblem } from './book/held.ts';
import { sheetView, tableViews } from './book/look.ts';
import { ownNames } from './book/own-tables.ts';
import { placeWritten } from './book/place-written.ts';
import { viewCell } from './book/view.ts';
import { CompiledBook } from './compiled/book.ts';
import { CompiledEngine } from './compiled/engine.ts';
import { Plan } from './edit/desk.ts';
import { heldOf, isCalculated } from './edit/enter.ts';
import { changeUnits } from './edit/units.ts';
import type { MakeEngine } from './port.ts';
import { type Pull, pullOf } from './quantities/pull.ts';
import { readEntry } from './quantities/read.ts';
import { BUDGET } from './results/meter.ts';

/** A page for readers has no other engine. */
const NO_OTHER: Lazy<MakeEngine> = {
  isLoaded: false,
  need: () => {
    throw new NotLoaded();
  },
  bring: () => Promise.reject(new NotLoaded()),
};

/** Why an entry was not taken; the workbook is as it was. */
export interface NotTaken {
  /** One plain sentence: what was wrong, what was expected. */
  readonly says: string;
}

/** Why a workbook cannot be carried by a {@link ReaderBook}. */
export interface NotCarried {
  /** Formulas that are not compiled, in the order of the workbook: where, and a word for what it is about. */
  readonly left: readonly { readonly where: string; readonly word: string }[];
  /** All formulas together cost too much. */
  readonly costs: boolean;
}

/** Why a document cannot be carried by compiled formulas alone; undefined where it can. */
export function notCarried(document: BookDocument): NotCarried | undefined {
  const state = BookState.of(document);
  const book = new CompiledBook(state);
  const left = book.leftOut().map(({ at, word }) => ({ where: placeWritten(state, at), word }));
  const costs = book.cost > BUDGET.together;
  return left.length === 0 && !costs ? undefined : { left, costs };
}

/**
 * A workbook whose inputs are given other values, and nothing else: worked out by compiled formulas alone, without
 * undo, names to give or formulas to write. What it shows is what an open workbook shows. It is for a page that has to be
 * small; whoever makes that page looks first whether the workbook can be carried so ({@link notCarried}).
 */
export class ReaderBook {
  #state: BookState;
  readonly #engine: CompiledEngine;
  #checks: readonly CheckState[] | undefined;

  private constructor(document: BookDocument) {
    this.#state = BookState.of(document);
    this.#engine = new CompiledEngine(this.#state, NO_OTHER);
  }

  /** Opens a document that was checked before, with references by ids. */
  static open(document: BookDocument): ReaderBook {
    return new ReaderBook(document);
  }

  get #sources() {
    return { state: this.#state, values: this.#engine };
  }

  /** The units it counts in now. */
  get units(): UnitSystem {
    return this.#state.head.units;
  }

  /** ISO 4217 code of its money. */
  get currency(): string {
    return this.#state.head.currency ?? 'USD';
  }

  /** What it is called. */
  get title(): string {
    return this.#state.head.title;
  }

  /** What is said of it as a whole. */
  get head(): Head {
    return this.#state.head;
  }

  /** A sheet by its id. */
  sheet(id: string): SheetView | undefined {
    const sheet = this.#state.sheet(id);
    return sheet === undefined ? undefined : sheetView(sheet);
  }

  /** A cell with all there is to know of it; no signs of checks. */
  cell(at: At): CellView {
    return viewCell(this.#sources, at);
  }

  /** What a cell comes to. */
  value(at: At): CellValue {
    return this.#engine.value(at);
  }

  /** A cell by its name. */
  named(name: string): CellView | undefined {
    const at = this.#state.named(name);
    return at === undefined ? undefined : this.cell(at);
  }

  /** Its checks as they stand now. */
  checks(): readonly CheckState[] {
    this.#checks ??= checkStates(this.#sources);
    return this.#checks;
  }

  /** What a check that fires says in other words: `say` puts its sentence and words of cells into them, `said` its numbers. */
  checkInWords(id: string, say: (words: string) => string, said?: NumberSaid): string | undefined {
    return checkInWords(this.#sources, id, say, said);
  }

  /** Its tables where they are. */
  tables(): readonly TableView[] {
    return tableViews(this.#state);
  }

  /** What a cell is called beside its name. */
  labelOf(at: At): string {
    return labelAt(this.#state, at);
  }

  /** What a cell with a list takes. */
  choices(at: At): readonly Choice[] | undefined {
    const allow = this.#state.cell(at)?.allow;
    return allow === undefined ? undefined : choicesOf(allow, ownNames(this.#sources, allow.from));
  }

  /** How a cell's number can be pulled; undefined where it has no range. */
  pull(at: At): Pull | undefined {
    return pullOf(this.cell(at), readContext(this.#sources, at.sheet, at));
  }

  /**
   * Gives a cell what was typed, read as in any workbook.
   * @returns why it was not taken; undefined where it was
   */
  enter(at: At, text: string): NotTaken | undefined {
    const old = this.#state.cell(at) ?? {};
    const reading = readEntry(text, readContext(this.#sources, at.sheet, at));
    if (reading.kind === 'unread') return reading;
    if (reading.kind === 'formula') {
      return { says: 'Only a number or words can stand here, no formula.' };
    }
    if (reading.kind === 'empty') return { says: 'This must not be blank. Type what you want.' };
    const { value: _value, typed: _typed, override: _override, other: _other, ...traits } = old;
    const held = heldOf(reading, old.allow);
    const cell: CellDocument = isCalculated(old)
      ? { ...traits, override: held }
      : { ...traits, ...held };
    const problem = this.#problemOf(cell);
    if (problem !== undefined) return problem;
    this.#change(at, cell);
    return undefined;
  }

  #problemOf(cell: CellDocument): Problem | undefined {
    return entryProblem(cell, this.#state.head, () => ownNames(this.#sources, cell.allow?.from));
  }

  #change({ sheet, row, column }: At, cell: CellDocument): void {
    const place = {
      row: this.#state.rowId(sheet, row) ?? '',
      column: this.#state.columnId(sheet, column) ?? '',
    };
    const plan = new Plan(this.#state, randomId);
    plan.change({ change: 'cells', sheet, cells: [{ ...place, cell }] });
    this.#follow(plan.state, plan.steps);
  }

  #follow(state: BookState, steps: readonly Step[]): void {
    this.#state = state;
    this.#checks = undefined;
    this.#engine.follow(steps);
  }

  /** Has the workbook count in other units; all it holds is turned into them. */
  turnTo(to: UnitSystem): void {
    if (to === this.units) return;
    const plan = new Plan(this.#state, randomId);
    changeUnits(plan, { do: 'changeUnits', to });
    this.#follow(plan.state, plan.steps);
  }

  /** The saved form as it is now. */
  document(): BookDocument {
    return this.#state.document();
  }
}
