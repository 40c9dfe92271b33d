import { breath, STRETCH, Watched } from '@kerfbook/keeping';
import type {
  Applied,
  At,
  CellView,
  Edit,
  Followed,
  OpenWorkbook,
  Place,
  Refused,
} from '@kerfbook/workbook';
import {
  type Area,
  areaBetween,
  areaOf,
  cellsOf,
  holds,
  type Selection,
  sizeInWords,
} from './area.ts';
import { asRead } from './decimal-mark.ts';
import type { Block, Busy, Editing, Offer, Pointed, Question } from './parts.ts';
import { firstCell } from './places.ts';
import { mayPoint } from './pointing.ts';
import { rangeOffer } from './range-offer.ts';
import { WasShown } from './was-shown.ts';

export type { Busy, Editing, Offer, Pointed } from './parts.ts';

export interface SessionState {
  readonly at: At;
  /** What is selected where that is more than the current cell. */
  readonly selection?: Selection;
  readonly editing?: Editing;
  /** Cells copied or cut last, until they have moved or Escape is pressed. */
  readonly block?: Block;
  /** Grows with every change of the workbook. */
  readonly changes: number;
  /** Grows when rows, columns, sheets or names changed. */
  readonly structures: number;
  /** Where the menu of the selected cells stands open, in the window. */
  readonly menu?: { readonly x: number; readonly y: number };
  /** Cells show their formulas instead of what those come to (G35). */
  readonly formulas?: boolean;
  /** A question about what was just done, answered with one press or not at all. */
  readonly offer?: Offer;
  /** A dialog about what is selected. */
  readonly asked?: Question;
  /** Something long that is being put in. */
  readonly busy?: Busy;
  /** What follows from the last change has been worked out for longer than one notices. */
  readonly working?: true;
  /** A sentence about what was refused. */
  readonly refused?: string;
  /** What a screen reader is told after an edit. */
  readonly told: string;
}

/** What is there only for a while. */
type Passing = Exclude<keyof SessionState, 'at' | 'changes' | 'structures' | 'told' | 'formulas'>;

interface SessionParts {
  readonly book: OpenWorkbook;
  readonly mayChange: boolean;
  /** False as soon as another workbook is open, or this one anew: nothing here is kept from then on. */
  readonly isOpen?: () => boolean;
  /** Keeps an edit that was carried out. */
  readonly record: (edit: Edit) => void;
  /** How long values are worked out before a key is heard and a frame drawn, in ms. */
  readonly stretch?: number;
}

/** From here on a maker is told that values are still being worked out, in ms. */
const NOTICED = 400;

const READS_ONLY = 'This tab only reads: the workbook is open for writing in another tab.';

let sessions = 0;

function nextId(): number {
  sessions += 1;
  return sessions;
}

/**
 * One open workbook under a maker's hands: the current cell, the entry being written, and what the
 * last edit changed. Knows no React and no grid; both watch it.
 */
export class Session {
  /** Tells sessions apart, also of one workbook opened anew. */
  readonly id = nextId();
  readonly book: OpenWorkbook;
  readonly state: Watched<SessionState>;
  readonly #mayChange: () => boolean;
  readonly #record: (edit: Edit) => void;
  readonly #was = new WasShown();
  readonly #repainters = new Set<(cells: readonly At[]) => void>();
  readonly #focusers = new Set<() => void>();
  readonly #lastOn = new Map<string, At>();
  readonly #stretch: number;
  #runStart: number | undefined;
  #stopped = false;
  /** What the last change did so far, to be told once all of it is worked out. */
  #told: { before: string; changed: number; whole?: string | undefined } = {
    before: '',
    changed: 0,
  };
  #keepingUp = false;

  constructor({ book, mayChange, isOpen, record, stretch = STRETCH }: SessionParts) {
    this.book = book;
    this.#stretch = stretch;
    this.#mayChange = () => mayChange && isOpen?.() !== false;
    this.#record = record;
    const first = firstCell(book);
    this.state = new Watched<SessionState>({ at: first, changes: 0, structures: 0, told: '' });
  }

  get mayChange(): boolean {
    return this.#mayChange();
  }

  get at(): At {
    return this.state.value.at;
  }

  get editing(): Editing | undefined {
    return this.state.value.editing;
  }

  /** The workbook once nothing is left to be worked out: for whatever copies, sorts or prints values. */
  settled(): OpenWorkbook {
    if (this.book.pending) this.#followed(this.book.goOn());
    return this.book;
  }

  current(): CellView {
    return this.book.cell(this.at);
  }

  /** Called with the cells to paint anew, at once after an edit. */
  onRepaint(repaint: (cells: readonly At[]) => void): () => void {
    this.#repainters.add(repaint);
    return () => this.#repainters.delete(repaint);
  }

  /** What the screen shows in a cell now, so that the next edit can tell what it was. */
  noteShown(at: At, text: string): void {
    this.#was.note(at, text);
  }

  /** The text a cell showed before the last edit, until the next one. */
  wasShown(at: At): string | undefined {
    return this.#was.of(at);
  }

  go(at: At): void {
    if (same(at, this.at) && this.selection === undefined) return;
    this.#lastOn.set(at.sheet, at);
    this.#clear('selection');
    this.#set({ at });
  }

  get selection(): Selection | undefined {
    return this.state.value.selection;
  }

  /** What is selected, as areas of the current sheet; the current cell where nothing more is. */
  get areas(): readonly Area[] {
    return this.selection?.areas ?? [areaOf(this.at)];
  }

  isSelected(at: At): boolean {
    const { selection } = this;
    if (selection === undefined || at.sheet !== this.at.sheet) return false;
    return selection.areas.some((area) => holds(area, at));
  }

  /** Selects from the current cell to a place; areas selected before stay (G11). */
  extendTo(place: Place): void {
    const others = this.selection?.areas.slice(0, -1) ?? [];
    const area = areaBetween(this.at, place);
    const alone = others.length === 0 && cellsOf(area) === 1;
    if (alone) this.#clear('selection');
    else this.#select({ areas: [...others, area], lead: place });
  }

  /** Selects an area; the current cell stays where it is, or comes along to the area's corner. */
  select(area: Area, at: At = this.at): void {
    const corner = holds(area, at) ? at : { ...at, row: area.top, column: area.left };
    const lead = {
      row: corner.row === area.top ? area.bottom : area.top,
      column: corner.column === area.left ? area.right : area.left,
    };
    if (!same(corner, this.at)) this.#set({ at: corner });
    this.#select({ areas: [area], lead });
  }

  /** Begins another area at a place, beside those selected (G16). */
  selectAlso(at: At): void {
    const { areas } = this;
    this.#set({ at });
    this.#select({ areas: [...areas, areaOf(at)], lead: at });
  }

  #select(selection: Selection): void {
    const view = this.book.sheet(this.at.sheet);
    this.#set({ selection, told: sizeInWords(selection.areas, view) });
  }

  /** Turns to a sheet, to the cell that was current there last. */
  goSheet(sheet: string): void {
    if (sheet === this.at.sheet) return;
    if (mayPoint(this)) {
      // The cell's own editor goes with its sheet; the line goes on writing.
      this.toLine();
      this.#set({ at: this.#lastOn.get(sheet) ?? firstCell(this.book, sheet) });
      return;
    }
    if (!this.commit()) return;
    this.go(this.#lastOn.get(sheet) ?? firstCell(this.book, sheet));
  }

  /** Turns to the sheet before or after the current one (G09). */
  turnSheet(by: 1 | -1): void {
    const sheets = this.book.sheets();
    const next = sheets[sheets.findIndex(({ id }) => id === this.at.sheet) + by];
    if (next !== undefined) this.goSheet(next.id);
  }

  begin(mode: Editing['mode'], from: Editing['from'], text?: string): boolean {
    if (!this.mayChange) {
      this.say(READS_ONLY);
      return false;
    }
    const kept = this.book.kept(this.at);
    if (kept !== undefined) {
      this.say(kept.says);
      return false;
    }
    const entry = text ?? this.current().entry;
    this.#set({ editing: { at: this.at, text: entry, mode, from, caret: entry.length } });
    return true;
  }

  write(text: string, caret = text.length): void {
    const { editing } = this.state.value;
    if (editing === undefined || (editing.text === text && editing.caret === caret)) return;
    const { at, mode, from, hushed } = editing;
    // A list that was put away stays so until the next letter.
    const quiet = hushed === true && editing.text === text ? { hushed } : {};
    this.#set({ editing: { at, mode, from, text, caret, ...quiet } });
    // The cell shows what the formula line writes; its own editor shows itself.
    if (editing.from === 'line') this.#repaint([editing.at]);
  }

  /** Takes over a text with a reference that was written by pointing. */
  point(text: string, pointed: Pointed): void {
    const { editing } = this.state.value;
    if (editing === undefined) return;
    this.#set({ editing: { ...editing, text, caret: pointed.end, pointed } });
    if (editing.from === 'line') this.#repaint([editing.at]);
  }

  choose(choice: number): void {
    const { editing } = this.state.value;
    if (editing !== undefined) this.#set({ editing: { ...editing, choice } });
  }

  hushOptions(): void {
    const { editing } = this.state.value;
    if (editing !== undefined) this.#set({ editing: { ...editing, hushed: true } });
  }

  cancel(): void {
    const { editing } = this.state.value;
    if (editing === undefined) return;
    this.#clear('editing', 'refused');
    this.#home(editing.at);
    this.#repaint([editing.at]);
  }

  /** Back to the sheet of what was written, where pointing led to another. */
  #home(at: At): void {
    if (at.sheet !== this.at.sheet) this.#set({ at });
  }

  /** The entry goes on being written on the formula line: its cell's editor is gone. */
  toLine(): void {
    const { editing } = this.state.value;
    if (editing !== undefined) this.#set({ editing: { ...editing, mode: 'edit', from: 'line' } });
  }

  /** Takes the entry over. False when it was refused: then it stays as it was typed. */
  commit(): boolean {
    const { editing } = this.state.value;
    if (editing === undefined) return true;
    const { at } = editing;
    const cell = this.book.cell(at);
    const text = asRead(editing.text, () => cell);
    if (text === cell.entry) {
      this.cancel();
      return true;
    }
    const { sheet, row, column } = at;
    const before = this.book.value(at).kind;
    const result = this.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
    if (!result.ok) return false;
    this.#clear('editing', 'refused');
    const offer = before === 'empty' ? rangeOffer(this.book, at) : undefined;
    if (offer !== undefined) {
      const take = { says: 'Take it in', does: () => this.apply(offer.edit) };
      this.offer({ says: offer.says, answers: [take], putAway: 'Leave it' });
    }
    this.#home(at);
    this.#repaint([at]);
    return true;
  }

  /** Carries an edit out and keeps it. `told` says what came of it where its cells do not. */
  apply = (edit: Edit, told?: string): Applied | Refused => {
    if (!this.mayChange) {
      this.say(READS_ONLY);
      return { ok: false, code: 'A1', says: READS_ONLY };
    }
    const result = this.#paced(() => this.book.apply(edit));
    if (result.ok) this.#done(result, '', told);
    else this.#refused(result);
    return result;
  };

  #refused(result: Refused): void {
    if (result.thrown !== undefined) console.error(result.thrown);
    this.say(result.says);
    // What was worked out before it was refused is still to be painted.
    if (this.book.pending) void this.#keepUp();
  }

  /**
   * Carries an edit out part by part, drawing in between, so that it can be watched and stopped with
   * Escape (G51). True when all of it was put in.
   */
  async applyLong(says: string, parts: readonly Edit[]): Promise<boolean> {
    if (!this.mayChange || this.state.value.busy !== undefined) return false;
    // What it does is painted when it is kept, and not at all when it is dropped.
    this.settled();
    const long = this.book.beginLong();
    if (!long.ok) {
      this.#refused(long);
      return false;
    }
    this.#stopped = false;
    for (const [i, part] of parts.entries()) {
      this.#set({ busy: { says, done: i / parts.length } });
      await breath();
      const stopped = this.#stopped || !this.mayChange;
      const result = stopped ? undefined : this.#paced(() => long.apply(part));
      if (result?.ok === true) continue;
      long.drop();
      this.#clear('busy');
      if (result === undefined) this.say('Stopped. Nothing was changed.');
      else this.#refused(result);
      return false;
    }
    this.#clear('busy');
    this.#done(long.keep());
    return true;
  }

  /** Stops what is being put in; what was put in of it is taken out again. */
  stop(): void {
    this.#stopped = true;
  }

  undo(): void {
    const result = this.mayChange ? this.#paced(() => this.book.undo()) : undefined;
    if (result?.ok === true) this.#done(result, 'Undone. ');
    else if (result !== undefined) this.#refused(result);
  }

  redo(): void {
    const result = this.mayChange ? this.#paced(() => this.book.redo()) : undefined;
    if (result?.ok === true) this.#done(result, 'Done again. ');
    else if (result !== undefined) this.#refused(result);
  }

  /** Remembers what was copied last, or forgets it. */
  copied(block: Block | undefined): void {
    if (block === undefined) this.#clear('block');
    else this.#set({ block });
  }

  /** Brings the focus back to the current cell. */
  focusGrid(): void {
    for (const focus of this.#focusers) focus();
  }

  onFocusGrid(focus: () => void): () => void {
    this.#focusers.add(focus);
    return () => this.#focusers.delete(focus);
  }

  openMenu(menu: { readonly x: number; readonly y: number }): void {
    this.#set({ menu });
  }

  /** Asks without standing in the way. */
  offer(offer: Offer): void {
    this.#set({ offer });
  }

  /** Takes up an answer of the offer, or puts it away. */
  answerOffer(answer?: number): void {
    const { offer } = this.state.value;
    this.#clear('offer');
    if (answer !== undefined) offer?.answers[answer]?.does();
  }

  /** Turns from results to formulas and back, on every sheet. */
  showFormulas(): void {
    const { formulas, structures } = this.state.value;
    this.#set({ formulas: formulas !== true, structures: structures + 1 });
  }

  /** Opens a dialog about what is selected. */
  ask(asked: Question): void {
    if (this.mayShape()) this.#set({ asked });
  }

  /** Whether more than inputs may be changed. Where not it says why, before anything is asked. */
  mayShape(): boolean {
    const says = this.mayChange ? this.book.locked()?.says : READS_ONLY;
    if (says !== undefined) this.say(says);
    return says === undefined;
  }

  answered(): void {
    this.#clear('asked');
  }

  closeMenu(): void {
    this.#clear('menu');
  }

  say(refused: string): void {
    this.#set({ refused });
  }

  hush(): void {
    this.#clear('refused');
  }

  /** Tab goes right and remembers where the run began, so that Enter returns there (G06). */
  tabbed(fromColumn: number): void {
    this.#runStart ??= fromColumn;
  }

  /** The column Enter goes to: where a run of Tabs began, else the same one. */
  entered(column: number): number {
    const start = this.#runStart ?? column;
    this.#runStart = undefined;
    return start;
  }

  /** Shows what formulas come to now that a part of the engine is there that they had to do without. */
  recalculate(): void {
    this.settled();
    this.book.recalculate();
    const { changes, structures } = this.state.value;
    this.#set({ changes: changes + 1, structures: structures + 1 });
  }

  /** Any other way of moving ends a run of Tabs. */
  moved(): void {
    this.#runStart = undefined;
  }

  #done(result: Applied, before = '', whole?: string): void {
    performance.mark('kerfbook-commit');
    this.#record(result.edit);
    // What was cut may stand elsewhere now, and an offer is about the last entry only.
    this.#clear('offer');
    if (result.structure) this.#clear('block');
    this.#told = { before, changed: 0, whole };
    const stale = this.#was.begin();
    this.#paint(result);
    if (stale.length > 0) this.#repaint(stale);
    this.#look(result.structure);
    if (this.book.pending) void this.#keepUp();
  }

  /** Paints what was worked out since, and has all of it looked at once nothing is left. */
  #followed(part: Followed): void {
    this.#paint(part);
    if (part.structure || !this.book.pending) this.#look(part.structure);
  }

  #paint({ changed }: Followed): void {
    this.#was.changed(changed);
    this.#repaint(changed);
    this.#told.changed += changed.length;
  }

  /** Has everything beside the grid look at the workbook again, and tells what came of the change. */
  #look(structure: boolean): void {
    const { changes, structures } = this.state.value;
    this.#set({
      at: this.#inside(this.at),
      changes: changes + 1,
      structures: structures + (structure ? 1 : 0),
      told: this.book.pending ? 'Working out what follows.' : this.#summary(),
    });
  }

  /** Works out what an edit left, a stretch at a time, so that keys are heard in between. */
  async #keepUp(): Promise<void> {
    if (this.#keepingUp) return;
    this.#keepingUp = true;
    const began = Date.now();
    try {
      while (this.book.pending) {
        await breath();
        if (this.state.value.busy !== undefined) break;
        this.#followed(this.book.goOn(this.#pace()));
        if (this.book.pending && Date.now() - began > NOTICED) this.#set({ working: true });
      }
    } finally {
      this.#keepingUp = false;
      this.#clear('working');
    }
  }

  #paced<T>(change: () => T): T {
    this.book.pace = this.#pace();
    try {
      return change();
    } finally {
      this.book.pace = undefined;
    }
  }

  /** Says no once a stretch is over. */
  #pace(): () => boolean {
    const end = performance.now() + this.#stretch;
    return () => performance.now() < end;
  }

  /** The current cell, moved to a sheet that is still there. */
  #inside(at: At): At {
    return this.book.sheet(at.sheet) === undefined ? firstCell(this.book) : at;
  }

  #summary(): string {
    const { before, changed, whole } = this.#told;
    if (whole !== undefined) return whole;
    const cell = this.book.sheet(this.at.sheet) === undefined ? undefined : this.current();
    const what = cell === undefined ? '' : `${cell.name ?? cell.address} ${cell.shown.text}. `;
    return `${before}${what}${changed} ${changed === 1 ? 'cell' : 'cells'} changed.`;
  }

  #repaint(cells: readonly At[]): void {
    for (const repaint of this.#repainters) repaint(cells);
  }

  #set(part: Partial<SessionState>): void {
    this.state.set({ ...this.state.value, ...part });
  }

  #clear(...keys: Passing[]): void {
    const next: Record<string, unknown> = { ...this.state.value };
    for (const one of keys) delete next[one];
    this.state.set(next as unknown as SessionState);
  }
}

export const same = (a: At, b: At): boolean =>
  a.row === b.row && a.column === b.column && a.sheet === b.sheet;
