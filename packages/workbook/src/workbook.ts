import {
  type At,
  type BookDocument,
  BookState,
  type CellDocument,
  CHECKS_SHEET,
  type Change,
  type CheckDocument,
  columnName,
  type Edit,
  type Head,
  History,
  type HistoryEntry,
  keptByIds,
  keptOf,
  type MakeId,
  randomId,
  readTyped,
  refuse,
  type Step,
  savePieces,
  type TurnSteps,
  withIds,
} from '@kerfbook/document';
import { timesMissed } from '@kerfbook/functions';
import type { UnitSystem } from '@kerfbook/wood';
import type {
  Applied,
  CellIds,
  CellValue,
  CellView,
  CheckState,
  Choice,
  Explanation,
  Followed,
  LongEdit,
  NameView,
  Neighbour,
  NumberSaid,
  OpenWorkbook,
  Pace,
  Problem,
  Refused,
  SheetView,
  Shown,
  TableView,
  TrialEdit,
} from './api.ts';
import { alsoUsing } from './book/also-used.ts';
import { checkInWords } from './book/check-in-words.ts';
import { changedChecks, checkStates, checkStatesAfter, formsOfChecks } from './book/checks.ts';
import { choicesOf } from './book/choices.ts';
import { readContext } from './book/context.ts';
import { explainCell, labelAt, usersOf } from './book/explain.ts';
import { findPlace, listProblems, sheetView, tableViews } from './book/look.ts';
import { Marks } from './book/marks.ts';
import { placesToMend } from './book/mend.ts';
import { ownNames } from './book/own-tables.ts';
import { idsAt, placeOf, Remembered } from './book/remembered.ts';
import { copiedCell, shownOf, viewCell } from './book/view.ts';
import { type Planned, planAgain, planEdit, planInstead } from './edit/apply.ts';
import type { Planning } from './edit/desk.ts';
import { bookLock, cellLock, editLock } from './edit/lock.ts';
import { Affected } from './follow/affected.ts';
import { addTouched } from './follow/touched.ts';
import { isManySteps, isMuch } from './follow/worth.ts';
import { joinedResult } from './joined-result.ts';
import { Meanings } from './meaning/book.ts';
import type { Engine, MakeEngine, Onward } from './port.ts';
import { trialEdit } from './trial-edit.ts';
import { usualEngine } from './usual-engine.ts';

/** How a workbook is opened. */
export interface OpenOptions {
  /** Makes ids of new rows and columns; random where left out. */
  readonly makeId?: MakeId;
  /** Works the values out; what compiles formulas where left out. */
  readonly engine?: MakeEngine;
  /** Hears how much of it is open: a large workbook takes its time. */
  readonly onward?: Onward;
}

/**
 * An open workbook: its saved state, the engine that computes it, and its history.
 * `packages/workbook/RULES.md` numbers what it promises.
 */
export class Workbook implements OpenWorkbook {
  /** The workbook as it is; the engine and what is worked out from it look here. */
  readonly #now: { state: BookState };
  readonly #engine: Engine;
  readonly #makeId: MakeId;
  readonly #history = new History();
  pace: Pace | undefined;
  /** What was worked out for a question in between and is still to be told. */
  readonly #owed: Followed[] = [];
  #long = false;
  /** How often formulas had to do without a part that comes late, as it was when all were worked out. */
  #missed = timesMissed();
  /** Counts what was or might have been changed. */
  #carried = 0;
  #checks: readonly CheckState[];
  /** Where checks put their signs. */
  #marks: Marks;
  /** What the cells are; made anew when a formula or the shape of the workbook changed. */
  #meanings: Meanings;

  private constructor(document: BookDocument, options: OpenOptions) {
    this.#now = { state: keptByIds(BookState.of(document)) };
    this.#makeId = options.makeId ?? randomId;
    const { engine = usualEngine, onward } = options;
    this.#engine = engine(this.#state, onward);
    this.#checks = checkStates(this.#sources);
    this.#meanings = new Meanings(this.#now);
    this.#marks = new Marks(this.#state);
  }

  /** Opens a document that `loadText` or `loadValue` has checked. */
  static open(document: BookDocument, options: OpenOptions = {}): Workbook {
    return new Workbook(document, options);
  }

  get #state(): BookState {
    return this.#now.state;
  }

  get #sources() {
    return { state: this.#state, values: this.#engine };
  }

  get lacks(): boolean {
    return timesMissed() > this.#missed;
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

  get head(): Head {
    return this.#state.head;
  }

  get canUndo(): boolean {
    return this.#history.canUndo;
  }

  get canRedo(): boolean {
    return this.#history.canRedo;
  }

  get locked(): boolean {
    return this.#state.head.locked === true;
  }

  choices(at: At): readonly Choice[] | undefined {
    const allow = this.#state.cell(at)?.allow;
    return allow === undefined
      ? undefined
      : choicesOf(allow, allow.from === undefined ? [] : ownNames(this.#sources, allow.from));
  }

  lockOf(at: At): Problem | undefined {
    return cellLock(this.#state, at);
  }

  lock(): Problem | undefined {
    return bookLock(this.#state);
  }

  /** Carries an edit out whole and records it, or refuses it whole and changes nothing. */
  apply(edit: Edit, how?: 'again' | TurnSteps): Applied | Refused {
    if (this.#long) return refuse('W16');
    const locked = how === undefined ? editLock(this.#state, edit) : undefined;
    if (locked !== undefined) return locked;
    const { units } = this;
    const result = this.#edit(edit, how && 'again');
    if (!result.ok) return result;
    if (typeof how !== 'function') this.#history.record(entryOf(result));
    else if (units !== this.units) this.#history.forget();
    else this.#history.record({ ...entryOf(result), cameIn: how });
    return result;
  }

  /** Begins an edit made of edits that are carried out one by one (rule U4). */
  beginLong(): LongEdit | Refused {
    if (this.#long) return refuse('W16');
    this.#long = true;
    const began = this.#state;
    const done: Applied[] = [];
    const end = (): void => {
      this.#long = false;
    };
    return {
      ok: true,
      apply: (edit) => {
        const result = editLock(this.#state, edit) ?? this.#edit(edit);
        if (result.ok) done.push(result);
        return result;
      },
      keep: () => {
        end();
        const whole = joinedResult(done);
        if (done.length > 0) this.#history.record(entryOf(whole));
        return whole;
      },
      drop: () => {
        end();
        this.#drop(done, began);
      },
    };
  }

  /** Begins an edit that is tried: each try takes the place of the one before it (rule U5). */
  beginTrial(): TrialEdit | Refused {
    if (this.#long) return refuse('W16');
    this.#long = true;
    const began = this.#state;
    return trialEdit({
      instead: (tried, edit) => editLock(began, edit) ?? this.#instead(tried, edit, began),
      keep: (kept) => {
        this.#long = false;
        if (kept !== undefined) this.#history.record(entryOf(kept));
      },
      drop: (tried) => {
        this.#long = false;
        const back = this.#instead(tried, undefined, began);
        if (back.ok) return back;
        this.#takeBack(began);
        return { ...joinedResult([]), structure: true };
      },
    });
  }

  undo(): Applied | Refused | undefined {
    if (this.#long) return undefined;
    const entry = this.#history.lastDone(this.#state);
    if (entry === undefined) return undefined;
    const result = this.#again(entry.inverse);
    if (result.ok) this.#history.undone();
    return result;
  }

  redo(): Applied | Refused | undefined {
    if (this.#long) return undefined;
    const entry = this.#history.lastUndone;
    if (entry === undefined) return undefined;
    const result = this.#again(entry.changes);
    if (result.ok) this.#history.redone(entryOf(result));
    return result;
  }

  get pending(): boolean {
    return this.#engine.pending || this.#owed.length > 0;
  }

  goOn(pace?: Pace): Followed {
    const followed = this.#owed.splice(0);
    if (this.#engine.pending) followed.push(this.#followUp(pace));
    return {
      changed: followed.flatMap(({ changed }) => changed),
      checks: [...new Set(followed.flatMap(({ checks }) => checks))],
      structure: followed.some(({ structure }) => structure),
    };
  }

  #followUp(pace?: Pace): Followed {
    const affected = new Affected();
    try {
      affected.take(this.#engine.goOn(pace));
    } catch {
      // What was told may be half told: everything is worked out anew and drawn anew.
      this.#buildAnew();
      affected.structure = true;
    }
    return this.#report(affected);
  }

  /** What changed, as it is told to who shows it. */
  #report(affected: Affected): Followed {
    const { cells, checks, marked } = this.#follow(affected);
    return {
      changed: withMarked(cells, marked ?? []),
      checks,
      structure: affected.structure || marked === undefined,
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
    return this.#engine.value(at);
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

  checkInWords(id: string, say: (words: string) => string, said?: NumberSaid): string | undefined {
    return checkInWords(this.#sources, id, say, said);
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
    const evaluate = this.#engine.pending
      ? undefined
      : (formula: string, sheet: string) => this.#engine.evaluate(formula, sheet);
    return explainCell({ ...this.#sources, evaluate }, at);
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
    return formsOfChecks(this.#state);
  }

  placesToMend(check: string): readonly At[] {
    return placesToMend(this.#sources, check);
  }

  keptFormula(a1: string): string {
    return keptOf(withIds(readTyped(a1), CHECKS_SHEET, this.#state));
  }

  copyOf(at: At): CellDocument | undefined {
    return copiedCell(this.#state, at);
  }

  find(text: string, sheet?: string): At | undefined {
    return findPlace(this.#state, text, sheet);
  }

  addressOf(at: At): string {
    return `${columnName(at.column)}${at.row + 1}`;
  }

  labelOf(at: At): string {
    return labelAt(this.#state, at);
  }

  idsAt(at: At): CellIds | undefined {
    return idsAt(this.#state, at);
  }

  placeOf(ids: CellIds): At | undefined {
    return placeOf(this.#state, ids);
  }

  asShown(at: At, value: CellValue): Shown {
    return shownOf(value, readContext(this.#sources, at.sheet, at));
  }

  remember(): Remembered {
    return new Remembered(() => this.#sources);
  }

  get results(): readonly string[] {
    return this.#state.head.results ?? [];
  }

  evaluate(formula: string, sheet?: string): CellValue {
    // Who asks here paints nothing: what came of it is told by the next `goOn`.
    if (this.#engine.pending) this.#owed.push(this.#followUp());
    const home = sheet ?? this.#state.sheets[0]?.id ?? '';
    const result = this.#engine.evaluate(formula, home);
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

  #edit(edit: Edit, again?: 'again'): Applied | Refused {
    const whole = edit.do === 'become';
    return this.#carry((state) => planEdit(state, edit, this.#makeId, again), whole);
  }

  /** Carries an edit out, or nothing, as if the one that was tried before it had not been. */
  #instead(
    tried: Applied | undefined,
    edit: Edit | undefined,
    began: BookState,
  ): Applied | Refused {
    const { changes = [] } = tried?.inverse ?? {};
    return this.#carry((state) => planInstead(state, changes, began, edit, this.#makeId));
  }

  #again(changes: readonly Change[]): Applied | Refused {
    return this.#carry((state) => planAgain(state, changes, this.#makeId));
  }

  /**
   * Carries out what is planned or refuses it. Whatever is thrown on the way, document and values are as
   * they were before (rules E1, A3): an engine that lost count is built anew and told once more; what
   * throws then is refused. `whole`: it may be another workbook altogether.
   */
  #carry(plan: (state: BookState) => Planned, whole = false): Applied | Refused {
    this.#carried += 1;
    const owed = this.#owed.length;
    const first = this.#attempt(plan, whole);
    if (first.ok || first.thrown === undefined) return first;
    const second = this.#attempt(plan, whole);
    if (!second.ok) return second;
    // All that shows is drawn anew by the edit itself.
    this.#owed.length = owed;
    return { ...second, structure: true };
  }

  #attempt(plan: (state: BookState) => Planned, whole: boolean): Applied | Refused {
    const before = this.#state;
    try {
      const planned = plan(before);
      return planned.ok ? this.#carryOut(planned.plan, whole) : planned;
    } catch (thrown) {
      this.#takeBack(before);
      return { ...refuse('W19'), thrown };
    }
  }

  /** The workbook is again what it was. */
  #takeBack(state: BookState): void {
    this.#now.state = state;
    this.#buildAnew();
    this.#owed.push({ changed: [], checks: [], structure: true });
  }

  #carryOut(plan: Planning, whole: boolean): Applied {
    const { changes, inverse, steps, state: after } = plan;
    const affected = new Affected();
    addTouched(steps, affected);
    const anew = isManySteps(steps) || (whole && isMuch(steps));
    if (anew) this.#engine.restart(after);
    else this.#followed(steps, affected);
    this.#now.state = after;
    affected.structure ||= anew;
    if (anew) affected.add(everyCell(after));
    const other = affected.structure ? undefined : madeOther(steps);
    if (other === undefined) this.#meanings = new Meanings(this.#now);
    else this.#meanings.forget(other);
    return {
      ok: true,
      edit: { do: 'change', changes },
      inverse: { do: 'change', changes: inverse },
      ...this.#report(affected),
    };
  }

  /** Leaves nothing of a long edit behind. */
  #drop(done: readonly Applied[], began: BookState): void {
    for (const one of [...done].reverse()) {
      if (this.#again(one.inverse.changes).ok) continue;
      this.#takeBack(began);
      return;
    }
  }

  #followed(steps: readonly Step[], affected: Affected): void {
    const recalculated = this.#engine.follow(steps, this.pace);
    affected.take(recalculated);
    affected.structure ||= recalculated.anew;
  }

  /** Everything that is worked out from the state. */
  #buildAnew(): void {
    this.#engine.restart(this.#state);
    this.#checks = checkStates(this.#sources);
    this.#meanings = new Meanings(this.#now);
    this.#marks = new Marks(this.#state);
  }

  /** Brings checks and their marks in step with what changed; no `marked`: they may be anywhere. */
  #follow(affected: Affected) {
    const before = this.#checks;
    const { cells, checks: rows } = affected.all();
    // Names, sheets and checks themselves come and go only with a change of structure.
    this.#checks = affected.structure
      ? checkStates(this.#sources)
      : checkStatesAfter(this.#sources, before, new Set(rows), cells);
    if (affected.structure) this.#marks = new Marks(this.#state);
    const checks = changedChecks(before, this.#checks);
    const marked = checks.length === 0 ? [] : this.#marks.cellsOf(checks, this.#checks);
    return { cells, checks, marked };
  }

  recalculate(): void {
    this.#missed = timesMissed();
    this.#engine.restart(this.#state);
    this.#checks = checkStates(this.#sources);
  }
}

const entryOf = ({ edit, inverse }: Applied): HistoryEntry => ({
  changes: edit.changes,
  inverse: inverse.changes,
});

const everyCell = (state: BookState): readonly At[] =>
  state.sheets.flatMap(({ id, rows, columns }) =>
    rows.flatMap((_, row) => columns.map((__, column) => ({ sheet: id, row, column }))),
  );

/**
 * The cells that changes may have made something else: not those where a number took the place of a
 * number. Nothing where that cannot be told.
 */
function madeOther(steps: readonly Step[]): readonly At[] | undefined {
  const other: At[] = [];
  for (const { change, before, after } of steps) {
    if (change.change === 'head') continue;
    if (change.change !== 'cells') return undefined;
    for (const one of change.cells) {
      const [row, column] = [
        after.rowIndex(change.sheet, one.row),
        after.columnIndex(change.sheet, one.column),
      ];
      if (row === undefined || column === undefined) return undefined;
      const at = { sheet: change.sheet, row, column };
      const [was, is] = [plainKind(before.cell(at)), plainKind(one.cell)];
      if (was === undefined || was !== is) other.push(at);
    }
  }
  return other;
}

/** What a cell without a formula is; nothing for one that has one. */
function plainKind(cell: CellDocument | null | undefined): string | undefined {
  if (cell?.formula !== undefined) return undefined;
  if (cell?.quantity !== undefined) return cell.quantity;
  return typeof cell?.value === 'string' ? 'words' : '';
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
