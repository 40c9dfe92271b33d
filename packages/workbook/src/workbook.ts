import {
  type At,
  type BookDocument,
  BookState,
  type CellDocument,
  CHECKS_SHEET,
  type CheckDocument,
  columnName,
  type Edit,
  History,
  keptByIds,
  loadValue,
  type MakeId,
  randomId,
  refuse,
  type SheetState,
  savePieces,
  tidy,
  toAddresses,
  toIds,
} from '@kerfbook/document';
import type { UnitSystem } from '@kerfbook/wood';
import type {
  Applied,
  CellValue,
  CellView,
  CheckState,
  Explanation,
  Followed,
  LongEdit,
  NameView,
  Neighbour,
  OpenWorkbook,
  Pace,
  Problem,
  Refused,
  SheetView,
  TableView,
} from './api.ts';
import { alsoUsing } from './book/also-used.ts';
import { changedChecks, checkStates, checkStatesAfter } from './book/checks.ts';
import { explainCell, usersOf } from './book/explain.ts';
import { findPlace, listProblems, tableViews } from './book/look.ts';
import { Marks } from './book/marks.ts';
import { forgetCount } from './book/over-limit.ts';
import { ownForEngine } from './book/own-tables.ts';
import { viewCell } from './book/view.ts';
import { buildCalculator } from './build-calculator.ts';
import { applyWhole } from './edit/apply.ts';
import { Changes, type Desk } from './edit/desk.ts';
import { keptProblem, lockedProblem, lockProblem } from './edit/lock.ts';
import type { Calculator } from './engine/calculator.ts';
import { Meanings } from './meaning/book.ts';

export interface OpenOptions {
  /** Makes ids of new rows and columns; random where left out. */
  readonly makeId?: MakeId;
}

/**
 * An open workbook: its saved state, the engine that computes it, and its history.
 * `packages/workbook/RULES.md` numbers what it promises.
 */
export class Workbook implements OpenWorkbook {
  #state: BookState;
  #calculator: Calculator;
  readonly #makeId: MakeId;
  readonly #history = new History();
  pace: Pace | undefined;
  /** What was worked out for a question in between and is still to be told. */
  readonly #owed: Followed[] = [];
  #long = false;
  /** Takes the last edit back in the document, as long as nothing came after it. */
  #back: () => void = () => undefined;
  /** Counts what was or might have been changed. */
  #carried = 0;
  #checks: readonly CheckState[];
  /** Where checks put their signs. */
  #marks: Marks;
  /** What the cells are; made anew when a formula or the shape of the workbook changed. */
  #meanings: Meanings;

  private constructor(document: BookDocument, options: OpenOptions) {
    this.#state = keptByIds(new BookState(document));
    this.#makeId = options.makeId ?? randomId;
    this.#calculator = buildCalculator(this.#state);
    this.#checks = checkStates(this.#sources);
    this.#meanings = new Meanings(this.#state);
    this.#marks = new Marks(this.#state);
  }

  /** Opens a document that `loadText` or `loadValue` has checked. */
  static open(document: BookDocument, options: OpenOptions = {}): Workbook {
    return new Workbook(document, options);
  }

  get #sources() {
    return { state: this.#state, calculator: this.#calculator };
  }

  get units(): UnitSystem {
    return this.#state.head.units;
  }

  get currency(): string {
    return this.#state.head.currency ?? 'USD';
  }

  get title(): string {
    return this.#state.head.title;
  }

  get canUndo(): boolean {
    return this.#history.canUndo;
  }

  get canRedo(): boolean {
    return this.#history.canRedo;
  }

  get inputsOnly(): boolean {
    return this.#state.head.locked === true;
  }

  kept(at: At): Problem | undefined {
    return keptProblem(this.#state, at);
  }

  locked(): Problem | undefined {
    return lockedProblem(this.#state);
  }

  /** Carries an edit out whole and records it, or refuses it whole and changes nothing. */
  apply(edit: Edit, again?: 'again'): Applied | Refused {
    if (this.#long) return refuse('W16');
    const kept = again === undefined ? lockProblem(this.#state, edit) : undefined;
    if (kept !== undefined) return kept;
    const result = this.#carry(edit);
    if (result.ok) this.#history.record({ edit: result.edit, inverse: result.inverse });
    return result;
  }

  /** Begins an edit that is carried out part by part (rule U4). */
  beginLong(): LongEdit | Refused {
    if (this.#long) return refuse('W16');
    this.#long = true;
    const done: Part[] = [];
    const end = (): void => {
      this.#long = false;
    };
    return {
      ok: true,
      apply: (part) => {
        const kept = lockProblem(this.#state, part);
        const result = kept ?? this.#carry(part);
        if (result.ok) done.push({ result, back: this.#back });
        return result;
      },
      keep: () => {
        end();
        const whole = joinedResult(done.map(({ result }) => result));
        if (done.length > 0) this.#history.record({ edit: whole.edit, inverse: whole.inverse });
        return whole;
      },
      drop: () => {
        end();
        this.#drop(done);
      },
    };
  }

  undo(): Applied | Refused | undefined {
    if (this.#long) return undefined;
    const step = this.#history.lastDone;
    if (step === undefined) return undefined;
    const result = this.#carry(step.inverse, 'again');
    if (result.ok) this.#history.undone();
    return result;
  }

  redo(): Applied | Refused | undefined {
    if (this.#long) return undefined;
    const step = this.#history.lastUndone;
    if (step === undefined) return undefined;
    const result = this.#carry(step.edit, 'again');
    if (result.ok) this.#history.redone({ edit: step.edit, inverse: result.inverse });
    return result;
  }

  get pending(): boolean {
    return this.#calculator.pending || this.#owed.length > 0;
  }

  goOn(pace?: Pace): Followed {
    const parts = this.#owed.splice(0);
    if (this.#calculator.pending) parts.push(this.#followUp(pace));
    return {
      changed: parts.flatMap(({ changed }) => changed),
      checks: [...new Set(parts.flatMap(({ checks }) => checks))],
      structure: parts.some(({ structure }) => structure),
    };
  }

  #followUp(pace?: Pace): Followed {
    const changes = new Changes();
    try {
      changes.add(this.#calculator.goOn(pace));
    } catch {
      // What was told may be half told: everything is worked out anew and drawn anew.
      this.#buildAnew();
      changes.structure = true;
    }
    return this.#told(changes);
  }

  /** What changed, as it is told to who shows it. */
  #told(changes: Changes): Followed {
    const { cells, checks, marked } = this.#follow(changes);
    return {
      changed: withMarked(cells, marked ?? []),
      checks,
      structure: changes.structure || marked === undefined,
    };
  }

  sheets(): readonly SheetView[] {
    return this.#state.sheets.map(sheetView);
  }

  sheet(id: string): SheetView | undefined {
    const sheet = this.#state.sheet(id);
    return sheet === undefined ? undefined : sheetView(sheet);
  }

  cell(at: At): CellView {
    const mark = this.#marks.at(at, this.#checks);
    return viewCell({ ...this.#sources, meanings: this.#meanings }, at, mark);
  }

  value(at: At): CellValue {
    return this.#calculator.value(at);
  }

  names(): readonly NameView[] {
    return this.#state.names();
  }

  named(name: string): CellView | undefined {
    const at = this.#state.named(name);
    return at === undefined ? undefined : this.cell(at);
  }

  checks(): readonly CheckState[] {
    return this.#checks;
  }

  tables(): readonly TableView[] {
    return tableViews(this.#state);
  }

  usedBy(at: At): readonly Neighbour[] {
    return usersOf(this.#sources, at);
  }

  alsoUsedBy(at: At): readonly string[] {
    return alsoUsing(this.#sources, at);
  }

  explain(at: At): Explanation {
    return explainCell(this.#sources, at);
  }

  problems() {
    return listProblems(this.#sources, (at) => this.cell(at));
  }

  clashes() {
    return this.#meanings.clashes();
  }

  checkClashes() {
    return this.#meanings.checkClashes();
  }

  checkForms(): readonly CheckDocument[] {
    return this.#state.checks.map((check) => ({
      ...check,
      formula: toAddresses(check.formula, CHECKS_SHEET, this.#state),
      ...(check.cells === undefined
        ? {}
        : { cells: toAddresses(check.cells, CHECKS_SHEET, this.#state) }),
    }));
  }

  keptFormula(a1: string): string {
    return toIds(tidy(a1), CHECKS_SHEET, this.#state);
  }

  copyOf(at: At): CellDocument | undefined {
    const cell = this.#state.cell(at);
    if (cell === undefined) return undefined;
    const { name: _name, ...kept } = cell;
    if (kept.formula === undefined) return kept;
    return { ...kept, formula: toAddresses(kept.formula, at.sheet, this.#state) };
  }

  find(text: string, sheet?: string): At | undefined {
    return findPlace(this.#state, text, sheet);
  }

  addressOf(at: At): string {
    return `${columnName(at.column)}${at.row + 1}`;
  }

  evaluate(formula: string, sheet?: string): CellValue {
    // Who asks here paints nothing: what came of it is told by the next `goOn`.
    if (this.#calculator.pending) this.#owed.push(this.#followUp());
    const home = sheet ?? this.#state.sheets[0]?.id ?? '';
    const own = ownForEngine(formula, home, this.#state);
    const result = this.#calculator.evaluate(formula, home, own);
    return result.kind === 'array' ? (result.rows[0]?.[0] ?? { kind: 'empty' }) : result;
  }

  document(): BookDocument {
    return this.#state.document();
  }

  *savedPieces(): Generator<string, boolean> {
    if (this.#long) return false;
    const began = this.#carried;
    for (const piece of savePieces(this.#state.streamed())) {
      yield piece;
      if (this.#carried !== began) return false;
    }
    return true;
  }

  /**
   * Carries an edit out or refuses it. Whatever is thrown on the way, document and values are as they
   * were before (rules E1, A3): an engine that lost count is built anew and the edit tried once more;
   * what throws then is refused. `again`: what was there before, which was held against the limits when
   * it came.
   */
  #carry(edit: Edit, again?: 'again'): Applied | Refused {
    this.#carried += 1;
    const owed = this.#owed.length;
    const first = this.#attempt(edit, again);
    if (first.ok || first.thrown === undefined) return first;
    const second = this.#attempt(edit, again);
    if (!second.ok) return second;
    // All that shows is drawn anew by the edit itself.
    this.#owed.length = owed;
    return { ...second, structure: true };
  }

  #attempt(edit: Edit, again?: 'again'): Applied | Refused {
    this.#back = () => undefined;
    const before = this.#state;
    before.begin();
    try {
      const result = edit.do === 'become' ? this.#become(edit) : this.#carryOut(edit, again);
      const { noted, back } = before.end();
      if (result.ok) this.#back = back;
      else if (noted) this.#takeBack(back);
      return result;
    } catch (thrown) {
      this.#state = before;
      this.#takeBack(before.end().back);
      return { ...refuse('W19'), thrown };
    }
  }

  #takeBack(back: () => void): void {
    back();
    forgetCount(this.#state);
    this.#buildAnew();
    this.#owed.push({ changed: [], checks: [], structure: true });
  }

  #carryOut(edit: Exclude<Edit, { do: 'become' }>, again?: 'again'): Applied | Refused {
    const changes = new Changes();
    const desk: Desk = { ...this.#sources, makeId: this.#makeId, changes };
    const outcome = this.#calculator.paced(this.pace, () => applyWhole(desk, edit, again));
    if (this.#calculator.stale) {
      this.#buildCalculator();
      changes.structure = true;
    }
    if (!outcome.ok) {
      // What was still left from before may have been worked out on the way.
      if (changes.any) this.#owed.push(this.#told(changes));
      return outcome;
    }
    const other = changes.structure ? undefined : madeOther(outcome.edit, outcome.inverse);
    if (other === undefined) this.#meanings = new Meanings(this.#state);
    else this.#meanings.forget(other);
    return { ok: true, edit: outcome.edit, inverse: outcome.inverse, ...this.#told(changes) };
  }

  /** Leaves nothing of the parts of a long edit behind. */
  #drop(done: Part[]): void {
    for (let part = done.pop(); part !== undefined; part = done.pop()) {
      if (this.#carry(part.result.inverse, 'again').ok) continue;
      const backs = [part, ...done.splice(0).reverse()];
      this.#takeBack(() => {
        for (const { back } of backs) back();
      });
    }
  }

  #buildCalculator(): void {
    this.#calculator.destroy();
    this.#calculator = buildCalculator(this.#state);
  }

  /** Everything that is worked out from the state. */
  #buildAnew(): void {
    this.#buildCalculator();
    this.#checks = checkStates(this.#sources);
    this.#meanings = new Meanings(this.#state);
    this.#marks = new Marks(this.#state);
  }

  /** Brings checks and their marks in step with what changed; no `marked`: they may be anywhere. */
  #follow(changes: Changes) {
    const before = this.#checks;
    const { cells, checkRows } = changes.sorted(CHECKS_SHEET);
    // Names, sheets and checks themselves come and go only with a change of structure.
    this.#checks = changes.structure
      ? checkStates(this.#sources)
      : checkStatesAfter(this.#sources, before, checkRows, cells);
    if (changes.structure) this.#marks = new Marks(this.#state);
    const checks = changedChecks(before, this.#checks);
    const marked = checks.length === 0 ? [] : this.#marks.cellsOf(checks, this.#checks);
    return { cells, checks, marked };
  }

  recalculate(): void {
    this.#buildCalculator();
    this.#checks = checkStates(this.#sources);
  }

  /** Takes another state over whole (rule E6). */
  #become(edit: Edit & { do: 'become' }): Applied | Refused {
    const loaded = loadValue(edit.book);
    if (!loaded.ok) return loaded;
    const before = this.#state.document();
    const was = this.#checks;
    this.#state = keptByIds(new BookState(loaded.document));
    this.#buildAnew();
    const changed = this.#state.sheets.flatMap((sheet) =>
      sheet.rows.flatMap((_, row) =>
        sheet.columns.map((__, column) => ({ sheet: sheet.id, row, column })),
      ),
    );
    return {
      ok: true,
      edit: { do: 'become', book: loaded.document },
      inverse: { do: 'become', book: before },
      changed,
      checks: changedChecks(was, this.#checks),
      structure: true,
    };
  }
}

/** A part of a long edit, and what takes it back in the document whatever happens. */
interface Part {
  readonly result: Applied;
  readonly back: () => void;
}

/**
 * The cells that an edit as it was carried out may have made something else: not those where a number
 * took the place of a number. Nothing where that cannot be told.
 */
function madeOther(edit: Edit, inverse: Edit): readonly At[] | undefined {
  if (edit.do !== 'setCells' || inverse.do !== 'setCells') return undefined;
  const before = new Map(inverse.cells.map(({ row, column, cell }) => [`${row} ${column}`, cell]));
  return edit.cells.flatMap(({ row, column, cell }) => {
    const [was, is] = [plainKind(before.get(`${row} ${column}`)), plainKind(cell)];
    return was !== undefined && was === is ? [] : { sheet: edit.sheet, row, column };
  });
}

/** What a cell without a formula is; nothing for one that has one. */
function plainKind(cell: CellDocument | null | undefined): string | undefined {
  if (cell?.formula !== undefined) return undefined;
  if (cell?.quantity !== undefined) return cell.quantity;
  return typeof cell?.value === 'string' ? 'words' : '';
}

/** What several parts did, as one. */
function joinedResult(parts: readonly Applied[]): Applied {
  const changed = new Map<string, At>();
  for (const part of parts) {
    for (const at of part.changed) changed.set(`${at.sheet} ${at.row} ${at.column}`, at);
  }
  return {
    ok: true,
    edit: { do: 'several', edits: parts.map(({ edit }) => edit) },
    inverse: { do: 'several', edits: parts.map(({ inverse }) => inverse).reverse() },
    changed: [...changed.values()],
    checks: [...new Set(parts.flatMap(({ checks }) => checks))],
    structure: parts.some(({ structure }) => structure),
  };
}

/** The cells that changed and those that checks mark, each once. */
function withMarked(cells: readonly At[], marked: readonly At[]): readonly At[] {
  if (marked.length === 0) return cells;
  const known = new Set(cells.map(({ sheet, row, column }) => `${sheet} ${row} ${column}`));
  const fresh = marked.filter(({ sheet, row, column }) => {
    const key = `${sheet} ${row} ${column}`;
    return !known.has(key) && known.add(key) !== undefined;
  });
  return [...cells, ...fresh];
}

function sheetView(sheet: SheetState): SheetView {
  return {
    id: sheet.id,
    name: sheet.name,
    rows: sheet.rows.length,
    columns: sheet.columns.length,
    widths: sheet.columns.map((column) => column.width),
    hidden: sheet.columns.flatMap(({ hidden }, at) => (hidden === true ? [at] : [])),
    hiddenRows: sheet.outline.hidden,
    frozenColumns: sheet.frozenColumns ?? 0,
    frozenRows: sheet.frozenRows ?? 0,
    groups: sheet.outline.groups,
  };
}
