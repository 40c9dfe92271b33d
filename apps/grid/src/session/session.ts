import type { Watched } from '@kerfbook/keeping';
import type {
  Applied,
  At,
  CellView,
  Edit,
  OpenWorkbook,
  Place,
  Refused,
  TurnSteps,
} from '@kerfbook/workbook';
import type { Area, Selection } from './area.ts';
import { Changes, type SessionInput } from './changes.ts';
import { type Anew, Effects } from './effects.ts';
import { Entry } from './entry.ts';
import { Notices } from './notices.ts';
import { Painting } from './painting.ts';
import { firstCell, same, sheetsInSight } from './places.ts';
import { mayPoint } from './pointing.ts';
import { Pulls } from './pulling.ts';
import { Selecting } from './selecting.ts';
import { type SessionState, Standing } from './standing.ts';
import type {
  Block,
  Comparing,
  Editing,
  MenuState,
  Offer,
  PartTrouble,
  Pointed,
  Question,
} from './types.ts';

export type { Effect, EffectsState, Turned } from './effects.ts';
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
  /** What the last change did. */
  readonly effects: Effects;
  readonly #standing: Standing;
  readonly #notices: Notices;
  readonly #painting = new Painting();
  readonly #selecting: Selecting;
  readonly #changes: Changes;
  readonly #entry: Entry;
  /** Pulling the number of a cell within its range. Whatever else is done lets go of it first. */
  readonly pulls: Pulls;

  constructor(given: SessionInput) {
    const { book } = given;
    this.book = book;
    const standing = new Standing(firstCell(book));
    this.state = standing.state;
    this.#standing = standing;
    this.#notices = new Notices(standing);
    this.#selecting = new Selecting(book, standing);
    const painting = this.#painting;
    const effects = new Effects(book, given.afterFrame);
    this.effects = effects;
    const rooms = {
      standing,
      notices: this.#notices,
      painting,
      selecting: this.#selecting,
      effects,
    };
    this.#changes = new Changes(given, rooms);
    this.#entry = new Entry(book, { ...rooms, changes: this.#changes });
    this.pulls = new Pulls(book, { ...rooms, changes: this.#changes });
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
    const { now } = this.pulls;
    if (now !== undefined && !same(now.at, at)) this.pulls.keep();
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

  selectLines(line: 'row' | 'column', area: Area): void {
    this.#selecting.selectLines(line, area);
  }

  selectAlso(at: At): void {
    this.#selecting.selectAlso(at);
  }

  get isFillingIn(): boolean {
    return this.#selecting.isFillingIn;
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

  /** Brings a check into sight beside the grid, and the cell where it is mended. */
  showCheck(id: string): void {
    if (!this.commit()) return;
    const [at] = this.book.placesToMend(id);
    if (at !== undefined) this.go(at);
    this.#standing.set({ check: { id } });
  }

  /** Turns to the sheet before or after the current one (G09). */
  turnSheet(by: 1 | -1): void {
    const sheets = sheetsInSight(this.book, this.at.sheet);
    const next = sheets[sheets.findIndex(({ id }) => id === this.at.sheet) + by];
    if (next !== undefined) this.goSheet(next.id);
  }

  // The entry being written.

  get editing(): Editing | undefined {
    return this.#standing.now.editing;
  }

  begin(mode: Editing['mode'], from: Editing['from'], text?: string): boolean {
    this.pulls.keep();
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

  commit(atList?: boolean): boolean {
    if (this.editing !== undefined) this.#selecting.wrote();
    return this.#entry.commit(atList);
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

  apply = (edit: Edit, said?: string): Applied | Refused => {
    this.pulls.keep();
    return this.#changes.apply(edit, said);
  };

  /** Carries out what was changed elsewhere: no step of undo here (rule U6). A pull goes on: it is refused meanwhile. */
  takeIn(edit: Edit, said: string, cameIn: TurnSteps): Applied | Refused {
    return this.#changes.takeIn(edit, said, cameIn);
  }

  applyLong(says: string, edits: readonly Edit[], said?: string): Promise<boolean> {
    this.pulls.keep();
    return this.#changes.applyLong(says, edits, said);
  }

  stop(): void {
    this.pulls.drop();
    this.#changes.stop();
  }

  undo(times?: number): void {
    this.pulls.keep();
    this.#changes.undo(times);
  }

  redo(times?: number): void {
    this.pulls.keep();
    this.#changes.redo(times);
  }

  recalculate(why: Anew): void {
    this.#changes.recalculate(why);
  }

  // What is told, offered and asked.

  /** Says something to a screen reader. */
  announce(announcement: string): void {
    this.#standing.set({ announcement });
  }

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

  /** Brings the pad for numbers, or puts it away for the device's own keyboard. */
  setPad(on: boolean): void {
    if (on === (this.#standing.now.pad === true)) return;
    if (on) this.#standing.set({ pad: true });
    else this.#standing.clear('pad');
  }

  /** Opens a dialog about what is selected. */
  ask(asked: Question): void {
    if (this.mayShape()) this.#standing.set({ asked });
  }

  answered(): void {
    this.#standing.clear('asked');
  }

  openMenu(menu: MenuState): void {
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
    this.#repaintThere(differ);
  }

  /** Says what is wrong with places in words and with shapes, and has their cells painted anew. */
  setPartTroubles(partTroubles: ReadonlyMap<string, PartTrouble>): void {
    const before = this.#standing.now.partTroubles;
    const differs = (key: string): boolean =>
      before?.get(key)?.says !== partTroubles.get(key)?.says;
    const differ = [...(before ?? []), ...partTroubles].flatMap(([key, { at }]) =>
      differs(key) ? [at] : [],
    );
    if (differ.length === 0) return;
    this.#standing.set({ partTroubles });
    this.#repaintThere(differ);
  }

  /** Paints those cells anew whose sheets are still there. */
  #repaintThere(cells: readonly At[]): void {
    this.#painting.repaint(cells.filter(({ sheet }) => this.book.sheet(sheet) !== undefined));
  }

  // What is seen of the cells.

  /** Marks the cells that stand otherwise in another workbook, or takes the marks away. */
  compare(comparing: Comparing | undefined): void {
    const { structures } = this.#standing.now;
    if (comparing === undefined) this.#standing.clear('comparing');
    else this.#standing.set({ comparing });
    // All cells are painted anew.
    this.#standing.set({ structures: structures + 1 });
  }

  /** What a cell holds in the workbook that this one is compared with; undefined where that is the same. */
  otherwise(at: At): string | undefined {
    const { comparing } = this.#standing.now;
    const ids = comparing === undefined ? undefined : this.book.idsAt(at);
    if (comparing === undefined || ids === undefined) return undefined;
    return comparing.cells.get(`${ids.sheet} ${ids.row} ${ids.column}`);
  }

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
    const seen = this.#painting.was.of(at);
    if (seen !== undefined) return seen;
    // What was not on the screen then is known from what the change did.
    const moved = this.effects.was(at);
    if (moved === undefined) return undefined;
    const { text } = this.book.asShown(at, moved.was);
    this.#painting.was.tell(at, text);
    return text;
  }

  focusGrid(): void {
    this.#painting.focusGrid();
  }

  onFocusGrid(focus: () => void): () => void {
    return this.#painting.onFocusGrid(focus);
  }
}
