import type { Watched } from '@kerfbook/keeping';
import type { Applied, At, CellView, Edit, OpenWorkbook, Place, Refused } from '@kerfbook/workbook';
import type { Area, Selection } from './area.ts';
import { Changes, type SessionInput } from './changes.ts';
import { Entry } from './entry.ts';
import { Notices } from './notices.ts';
import { Painting } from './painting.ts';
import { firstCell } from './places.ts';
import { mayPoint } from './pointing.ts';
import { Selecting } from './selecting.ts';
import { type SessionState, Standing } from './standing.ts';
import type { Block, Editing, Offer, Pointed, Question } from './types.ts';

export { same } from './places.ts';
export type { SessionState } from './standing.ts';
export type { Busy, Editing, Offer, Pointed } from './types.ts';

let sessions = 0;

function nextId(): number {
  sessions += 1;
  return sessions;
}

/**
 * One open workbook under a maker's hands, as the app sees it: the rooms behind it do the work, and what
 * needs more than one of them is here. Knows no React and no grid; both watch it.
 */
export class Session {
  /** Tells sessions apart, also of one workbook opened anew. */
  readonly id = nextId();
  readonly book: OpenWorkbook;
  readonly state: Watched<SessionState>;
  readonly #standing: Standing;
  readonly #notices: Notices;
  readonly #painting = new Painting();
  readonly #selecting: Selecting;
  readonly #changes: Changes;
  readonly #entry: Entry;

  constructor(given: SessionInput) {
    const { book } = given;
    this.book = book;
    const standing = new Standing(firstCell(book));
    this.state = standing.state;
    this.#standing = standing;
    this.#notices = new Notices(standing);
    this.#selecting = new Selecting(book, standing);
    const painting = this.#painting;
    const rooms = { standing, notices: this.#notices, painting, selecting: this.#selecting };
    this.#changes = new Changes(given, rooms);
    this.#entry = new Entry(book, { ...rooms, changes: this.#changes });
  }

  current(): CellView {
    return this.book.cell(this.at);
  }

  // The current cell, and what is selected.

  get at(): At {
    return this.#selecting.at;
  }

  get selection(): Selection | undefined {
    return this.#selecting.selection;
  }

  get areas(): readonly Area[] {
    return this.#selecting.areas;
  }

  go(at: At): void {
    this.#selecting.go(at);
  }

  isSelected(at: At): boolean {
    return this.#selecting.isSelected(at);
  }

  extendTo(place: Place): void {
    this.#selecting.extendTo(place);
  }

  select(area: Area, at?: At): void {
    this.#selecting.select(area, at);
  }

  selectAlso(at: At): void {
    this.#selecting.selectAlso(at);
  }

  tabbed(fromColumn: number): void {
    this.#selecting.tabbed(fromColumn);
  }

  entered(column: number): number {
    return this.#selecting.entered(column);
  }

  moved(): void {
    this.#selecting.moved();
  }

  /** Turns to a sheet, to the cell that was current there last. */
  goSheet(sheet: string): void {
    if (sheet === this.at.sheet) return;
    if (mayPoint(this)) {
      // The cell's own editor goes with its sheet; the line goes on writing.
      this.toLine();
      this.#selecting.moveTo(this.#selecting.lastOn(sheet));
      return;
    }
    if (!this.commit()) return;
    this.go(this.#selecting.lastOn(sheet));
  }

  /** Turns to the sheet before or after the current one (G09). */
  turnSheet(by: 1 | -1): void {
    const sheets = this.book.sheets();
    const next = sheets[sheets.findIndex(({ id }) => id === this.at.sheet) + by];
    if (next !== undefined) this.goSheet(next.id);
  }

  // The entry being written.

  get editing(): Editing | undefined {
    return this.#standing.now.editing;
  }

  begin(mode: Editing['mode'], from: Editing['from'], text?: string): boolean {
    return this.#entry.begin(mode, from, text);
  }

  write(text: string, caret?: number): void {
    this.#entry.write(text, caret);
  }

  point(text: string, pointed: Pointed): void {
    this.#entry.point(text, pointed);
  }

  choose(choice: number): void {
    this.#entry.choose(choice);
  }

  hushOptions(): void {
    this.#entry.hushOptions();
  }

  cancel(): void {
    this.#entry.cancel();
  }

  toLine(): void {
    this.#entry.toLine();
  }

  commit(): boolean {
    return this.#entry.commit();
  }

  // Changes of the workbook.

  get mayChange(): boolean {
    return this.#changes.mayChange;
  }

  mayShape(): boolean {
    return this.#changes.mayShape();
  }

  settled(): OpenWorkbook {
    return this.#changes.settled();
  }

  apply = (edit: Edit, announcement?: string): Applied | Refused =>
    this.#changes.apply(edit, announcement);

  applyLong(says: string, edits: readonly Edit[]): Promise<boolean> {
    return this.#changes.applyLong(says, edits);
  }

  stop(): void {
    this.#changes.stop();
  }

  undo(): void {
    this.#changes.undo();
  }

  redo(): void {
    this.#changes.redo();
  }

  recalculate(): void {
    this.#changes.recalculate();
  }

  // What is told, offered and asked.

  say(refused: string): void {
    this.#notices.say(refused);
  }

  hush(): void {
    this.#notices.hush();
  }

  offer(offer: Offer): void {
    this.#notices.offer(offer);
  }

  answerOffer(answer?: number): void {
    this.#notices.answerOffer(answer);
  }

  /** Opens a dialog about what is selected. */
  ask(asked: Question): void {
    if (this.mayShape()) this.#standing.set({ asked });
  }

  answered(): void {
    this.#standing.clear('asked');
  }

  openMenu(menu: { readonly x: number; readonly y: number }): void {
    this.#standing.set({ menu });
  }

  closeMenu(): void {
    this.#standing.clear('menu');
  }

  /** Remembers what was copied last, or forgets it. */
  copied(block: Block | undefined): void {
    if (block === undefined) this.#standing.clear('block');
    else this.#standing.set({ block });
  }

  /** Says which cells rest on a plan that is not proven yet, and has them painted anew. */
  setProving(cells: ReadonlyMap<string, At> | undefined): void {
    const before = this.#standing.now.proving;
    const differ = [
      ...[...(before ?? [])].filter(([key]) => cells?.has(key) !== true),
      ...[...(cells ?? [])].filter(([key]) => before?.has(key) !== true),
    ].map(([, at]) => at);
    if (differ.length === 0 && (before === undefined) === (cells === undefined)) return;
    if (cells === undefined) this.#standing.clear('proving');
    else this.#standing.set({ proving: cells });
    this.#painting.repaint(differ.filter(({ sheet }) => this.book.sheet(sheet) !== undefined));
  }

  // What is seen of the cells.

  /** Turns from results to formulas and back, on every sheet. */
  showFormulas(): void {
    const { formulas, structures } = this.#standing.now;
    this.#standing.set({ formulas: formulas !== true, structures: structures + 1 });
  }

  onRepaint(repaint: (cells: readonly At[]) => void): () => void {
    return this.#painting.onRepaint(repaint);
  }

  /** What the screen shows in a cell now, so that the next edit can tell what it was. */
  noteShown(at: At, text: string): void {
    this.#painting.was.note(at, text);
  }

  /** The text a cell showed before the last edit, until the next one. */
  wasShown(at: At): string | undefined {
    return this.#painting.was.of(at);
  }

  focusGrid(): void {
    this.#painting.focusGrid();
  }

  onFocusGrid(focus: () => void): () => void {
    return this.#painting.onFocusGrid(focus);
  }
}
