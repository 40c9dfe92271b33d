import type { Edit } from '@kerfbook/workbook';
import { type Base, besideBase } from './bases.ts';
import { type BookStore, besideUnder } from './book-store.ts';
import {
  type BookcaseState,
  type Current,
  DONE,
  type Done,
  notDone,
  Watched,
} from './bookcase-state.ts';
import { Keeper, type KeeperOptions } from './keeper.ts';
import { type Hold, holdBook, type Locks, writing } from './locks.ts';
import { newBookId } from './new-id.ts';
import {
  isTouched,
  notOpened,
  type Opened,
  type OpenedOrNot,
  openRecord,
  textOf,
  workingCopy,
} from './opening.ts';
import { askToKeep, type Keeping, promisedSoFar, type StorageManagerLike } from './persistence.ts';
import { type BookHead, type BookRecord, KEPT, type Origin, type Values } from './records.ts';
import type { SaveState } from './save-state.ts';
import type { ShelfPort } from './shelf-port.ts';
import {
  LAST_OPENED,
  openAny,
  openFirst,
  openStore,
  owing,
  type Start,
  wasSaved,
} from './starting.ts';
import { type ShippedTemplate, workingCopyId } from './templates.ts';
import { NO_TEMPLATE, writeTrouble } from './trouble.ts';
import { Versions } from './version-list.ts';

/** What a bookcase is made of, given by the page. */
export interface BookcaseInput {
  /** Built in; the first one opens where nothing was open yet. */
  readonly templates: readonly ShippedTemplate[];
  /** Opens the store of this device; rejects where the browser lets pages keep nothing. */
  readonly openStore: () => Promise<BookStore>;
  /** Of the browser, so that one tab writes; left out where it has none. */
  readonly locks?: Locks | undefined;
  /** Of the browser, to ask that nothing is cleared; left out where it has none. */
  readonly storage?: StorageManagerLike | undefined;
  /** How soon edits are folded into the text, and failed writes tried again. */
  readonly keeper?: KeeperOptions;
  /** The clock, ms since 1970; `Date.now` where left out. */
  readonly now?: () => number;
}

/** Changes after which an earlier state is kept. */
const EDITS_TO_A_VERSION = 50;

/** A workbook that was left with edits the device would not take: this page goes on holding them. */
interface Unwritten {
  readonly current: Current;
  readonly keeper: Keeper;
  readonly hold: Hold;
}

/**
 * The workbooks on this device and the one at hand. Opens, keeps and files them; the app shows
 * `state.current.book`, changes it through `apply`-like calls of its own, and tells `record`.
 */
export class Bookcase {
  /** Where workbooks are kept; one that lasts as long as the page where the browser keeps nothing. */
  readonly store: BookStore;
  /** Built in, the one that opens first before the others. */
  readonly templates: readonly ShippedTemplate[];
  /** The clock, ms since 1970. */
  readonly now: () => number;
  /** How things stand, to be watched. */
  readonly state: Watched<BookcaseState>;
  /** The shelf of the club that serves the page; left out where none does. */
  shelf?: ShelfPort;
  readonly #input: BookcaseInput;
  #keeper: Keeper;
  #hold: Hold;
  #asked = false;
  #remembered = true;
  #sinceVersion = 0;
  #noticed = 0;
  /** Reasons that could not be kept in the store. */
  readonly #unopened = new Map<string, string>();
  readonly #unwritten = new Map<string, Unwritten>();
  #turn: Promise<unknown> = Promise.resolve();

  private constructor(
    input: BookcaseInput,
    store: BookStore,
    { opened, hold }: Start,
    keeping: Keeping,
  ) {
    this.#input = input;
    this.store = store;
    this.templates = input.templates;
    this.now = input.now ?? Date.now;
    this.#hold = hold;
    this.#keeper = this.#keep(opened);
    this.state = new Watched<BookcaseState>({
      current: currentOf(opened, hold),
      save: stateOf(this.#keeper, hold),
      canTakeOver: false,
      keeping,
      notices: [],
      listAsked: 0,
    });
    if (opened.says !== undefined) this.notice(opened.says, 'in list');
    this.#watchHold(hold);
    void this.#keepVersion();
  }

  /**
   * Opens what was open last, or the first template that ships.
   * @throws NothingToShow where nothing can be opened and no template arrives
   */
  static async start(input: BookcaseInput): Promise<Bookcase> {
    const now = input.now ?? Date.now;
    const { store, trouble } = await openStore(input.openStore);
    // What a tab keeps for itself alone nobody else can write.
    const locks = store.lasting ? input.locks : undefined;
    const start = await openFirst(store, input.templates, locks, now());
    // Known before the page is drawn: what is told of it must not come under a finger.
    const saved = await wasSaved(store, start.opened);
    const keeping = saved ? await promisedSoFar(input.storage) : 'unknown';
    const bookcase = new Bookcase({ ...input, locks }, store, start, keeping);
    if (trouble !== undefined) bookcase.notice(trouble);
    await bookcase.#tellFailed(start.failed);
    return bookcase;
  }

  /** Notes what could not be opened, and shows the list with it. */
  async #tellFailed(failed: Start['failed']): Promise<void> {
    const bad = [...failed].filter(([, { why }]) => why === 'bad');
    for (const [id, { says }] of bad) await this.#noteUnopened(id, says);
    const [first] = [...failed.values()];
    if (first === undefined) return;
    this.notice(notOpened(first), bad.length > 0 ? 'in list' : undefined);
    if (bad.length > 0) this.askForList();
  }

  /** Keeps why a workbook could not be opened, or that it can be. It helps, so a failure costs nothing. */
  async #noteUnopened(id: string, says: string | undefined): Promise<void> {
    const key = UNOPENED + id;
    try {
      if ((await this.store.get(key)) !== says) await this.store.set(key, says);
      this.#unopened.delete(id);
    } catch {
      if (says !== undefined) this.#unopened.set(id, says);
    }
  }

  /** Why workbooks could not be opened when that was last tried, by their ids. */
  async unopened(): Promise<ReadonlyMap<string, string>> {
    const kept = await this.store.values(UNOPENED).catch(() => new Map<string, unknown>());
    const told = [...kept].flatMap(([key, says]) =>
      typeof says === 'string' ? [[key.slice(UNOPENED.length), says] as const] : [],
    );
    return new Map([...told, ...this.#unopened]);
  }

  /** The workbook at hand. */
  get current(): Current {
    return this.state.value.current;
  }

  /** True while closing the page would lose something. */
  get unsafe(): boolean {
    if (this.#unwritten.size > 0) return true;
    return this.current.access === 'write' && this.#keeper.unsafe;
  }

  /** A workbook as it stands in this page: the one at hand, or one left with edits that are not kept. */
  inHand(id: string): Current | undefined {
    return id === this.current.id ? this.current : this.#unwritten.get(id)?.current;
  }

  /** Workbooks left with edits that are not kept. */
  get unwritten(): readonly BookHead[] {
    return [...this.#unwritten.values()].map(({ current: { id, book, origin }, keeper }) => {
      const now = this.now();
      const { revision } = keeper;
      return { id, title: book.title, origin, created: now, updated: now, revision };
    });
  }

  /** Number of the last edit of the workbook at hand. */
  get revision(): number {
    return this.#keeper.revision;
  }

  /** Keeps an edit that was just carried out on the workbook at hand. */
  record(edit: Edit): void {
    if (this.current.access !== 'write') return;
    this.#keeper.record(edit);
    this.#sinceVersion += 1;
    if (this.#sinceVersion >= EDITS_TO_A_VERSION) void this.#keepVersion();
  }

  /** Earlier states of the workbook at hand. */
  get versions(): Versions {
    return new Versions(this.store, this.current.id, this.now);
  }

  /** Keeps the state the workbook is in, where its maker may write it. */
  async #keepVersion(): Promise<void> {
    this.#sinceVersion = 0;
    if (this.current.access !== 'write' || !this.store.lasting) return;
    // An earlier state that could not be kept costs no work: the workbook itself says how it is kept.
    await this.versions.keep(this.textOfCurrent()).catch(() => undefined);
  }

  /** Writes again what could not be written; settles when that was tried. */
  retry(): Promise<void> {
    return this.#keeper.retry();
  }

  /** Folds the log into the saved text; for when the page is hidden or about to go. */
  async fold(): Promise<void> {
    if (this.current.access === 'write') await this.#keeper.fold();
  }

  /** Settles when all of the workbook at hand that is on its way has been written: false where some of it was not. */
  async written(): Promise<boolean> {
    const keeper = this.#keeper;
    await keeper.written();
    return !keeper.unwritten;
  }

  /** Shows another workbook of this device, or a template's working copy. */
  open(id: string): Promise<Done> {
    return this.#alone(() => this.#open(id));
  }

  async #open(id: string): Promise<Done> {
    if (id === this.current.id) return DONE;
    const left = this.#unwritten.get(id);
    if (left !== undefined) return this.#showAgain(left);
    const hold = await holdBook(id, this.#input.locks);
    return this.#show(hold, id, await this.#read(id, hold.access === 'write'));
  }

  /**
   * Makes a workbook from a text that `loadText` accepts, and shows it. `anyway`: what is only to be
   * looked at is shown also where the device has no room, and says that it is not kept. `base`: the state of a
   * template that it comes from, kept beside it.
   */
  add(text: string, title: string, origin: Origin, anyway?: 'anyway', base?: Base): Promise<Done> {
    return this.#alone(async () => {
      const now = this.now();
      const id = newBookId();
      const head = { id, title, origin, created: now, updated: now, revision: 0 };
      const record = { ...head, kept: KEPT, text };
      const beside = base === undefined ? undefined : besideBase(id, base);
      const kept = await this.#put(record, beside);
      if (kept.ok || anyway === undefined) return kept.ok ? this.#open(id) : kept;
      const result = await openRecord({ record, log: [] });
      if (!result.ok) return notDone(result.says);
      const opened = owing(result.opened, { record, ...(beside && { beside }) }, kept.trouble);
      return this.#show(await holdBook(id, this.#input.locks), id, { ok: true, opened });
    });
  }

  /**
   * Shows the template as it ships. The changed working copy becomes a workbook of the maker's own.
   * @param old `to the trash`: it waits there instead
   */
  startAgain(key: string, old: 'kept' | 'to the trash' = 'to the trash'): Promise<Done> {
    return this.#alone(async () => {
      const template = this.templates.find((one) => one.key === key);
      if (template === undefined) return notDone('That template is not part of this app.');
      // First of all, so that nothing is closed or filed where it cannot be had.
      const text = await template.text().catch(() => undefined);
      if (text === undefined) return notDone(NO_TEMPLATE);
      const id = workingCopyId(key);
      if (this.#unwritten.has(id)) return notDone(NOT_KEPT_YET);
      const here = this.current.id === id;
      if (here && this.current.access === 'read') return notDone(OPEN_ELSEWHERE);
      if (here) {
        await this.#keeper.fold();
        if (this.#keeper.unwritten) return notDone(NOT_KEPT_YET);
        await this.#keeper.close();
      }
      // The copy stays in this tab's hands throughout: one that is let go may be taken by another tab.
      const hold = here ? this.#hold : await holdBook(id, this.#input.locks);
      const done =
        hold.access === 'write'
          ? await this.#freshCopy(template, text, old)
          : notDone(OPEN_ELSEWHERE);
      if (done.ok) return this.#show(hold, id, await this.#read(id, true));
      if (!here) await hold.release();
      return done;
    });
  }

  /** Does something to a workbook that no tab has open. */
  whileHeld(id: string, work: () => Promise<Done>): Promise<Done> {
    return this.#alone(async () => {
      if (this.#unwritten.has(id)) return notDone(NOT_KEPT_YET);
      const hold = await holdBook(id, this.#input.locks);
      try {
        return hold.access === 'write' ? await work() : notDone(OPEN_ELSEWHERE);
      } catch (error) {
        return notDone(`That did not work: ${writeTrouble(error)}`);
      } finally {
        await hold.release();
      }
    });
  }

  /** For a reading tab whose writer has gone: reads what it left and writes from there on. */
  takeOver(): Promise<Done> {
    return this.#alone(async () => {
      if (!this.state.value.canTakeOver) return notDone(OPEN_ELSEWHERE);
      const { id } = this.current;
      const reading = this.#hold;
      const result = await this.#read(id, true);
      // What cannot be read now stays in this tab's hands, as long as it offers to go on there.
      const hold = result.ok ? writing(() => reading.release()) : reading;
      return this.#show(hold, id, result);
    });
  }

  /** One after the other: two that open at once would each find the workbook taken by the other. */
  #alone(work: () => Promise<Done>): Promise<Done> {
    const done = this.#turn.then(work);
    this.#turn = done.catch(() => undefined);
    return done;
  }

  /**
   * @param more `in list`: the list of workbooks shows more about it; `at hand`: it speaks of the workbook at hand, and
   *   goes with it
   */
  notice(says: string, more?: 'in list' | 'at hand'): void {
    this.#noticed += 1;
    const notice = {
      id: this.#noticed,
      says,
      ...(more === 'in list' ? { inList: true } : {}),
      ...(more === 'at hand' ? { of: this.current.id } : {}),
    };
    this.#set({ notices: [...this.state.value.notices, notice] });
  }

  /** Shows the list of workbooks. */
  askForList(): void {
    this.#set({ listAsked: this.state.value.listAsked + 1 });
  }

  /** Puts away a notice. */
  dismiss(id: number): void {
    this.#set({ notices: this.state.value.notices.filter((notice) => notice.id !== id) });
  }

  /** The workbook at hand as it stands. */
  textOfCurrent(): string {
    return textOf(this.current.book);
  }

  #read(id: string, mayWrite: boolean): Promise<OpenedOrNot> {
    return openAny(this.store, this.templates, id, mayWrite, this.now());
  }

  async #show(hold: Hold, id: string, result: OpenedOrNot): Promise<Done> {
    if (!result.ok) {
      if (hold !== this.#hold) await hold.release();
      if (result.why === 'bad') await this.#noteUnopened(id, result.says);
      return notDone(notOpened(result));
    }
    const { opened } = result;
    // Before it is seen: whoever closes the page as soon as it stands there has it at the next start.
    await this.#remember(opened.id);
    if (opened.id !== this.current.id) await this.#leave();
    this.#hold = hold;
    this.#keeper = this.#keep(opened);
    this.#set({
      current: currentOf(opened, hold),
      save: stateOf(this.#keeper, hold),
      canTakeOver: false,
    });
    if (opened.says !== undefined) this.notice(opened.says, 'in list');
    this.#watchHold(hold);
    void this.#keepVersion();
    await this.#noteUnopened(opened.id, undefined);
    if (this.#unwritten.size > 0) void this.#letGo();
    return DONE;
  }

  /** What is opened at the next start; where there is no room for that now, it is written with the next edit. */
  async #remember(id: string): Promise<void> {
    this.#remembered = await this.store.set(LAST_OPENED, id).then(
      () => true,
      () => false,
    );
  }

  /** Shows a workbook again as it was left. */
  async #showAgain({ current, keeper, hold }: Unwritten): Promise<Done> {
    await this.#remember(current.id);
    await this.#leave();
    this.#unwritten.delete(current.id);
    this.#hold = hold;
    this.#keeper = keeper;
    this.#set({ current, save: keeper.state, canTakeOver: false });
    return DONE;
  }

  /** Closes the workbook at hand; what the device does not take of it stays in this page's hands. */
  async #leave(): Promise<void> {
    const { current } = this;
    const keeper = this.#keeper;
    const hold = this.#hold;
    if (current.access === 'write') {
      await keeper.fold();
      if (keeper.unwritten) {
        this.#unwritten.set(current.id, { current, keeper, hold });
        return;
      }
      await keeper.close();
    }
    await hold.release();
  }

  async #put(record: BookRecord, beside?: Values): Promise<Put> {
    try {
      await this.store.put(record, beside);
      return DONE;
    } catch (error) {
      const trouble = writeTrouble(error);
      return { ok: false, says: `Not saved: ${trouble}`, trouble };
    }
  }

  /** The old working copy goes on under an id of its own, with all that is kept beside it. */
  async #freshCopy(
    template: ShippedTemplate,
    text: string,
    stays: 'kept' | 'to the trash',
  ): Promise<Done> {
    const now = this.now();
    const from = workingCopyId(template.key);
    try {
      const old = await this.store.read(from);
      if (old === undefined || !isTouched(old)) {
        return await this.#put(workingCopy(template, text, now));
      }
      const id = newBookId();
      const gone = stays === 'kept' ? {} : { updated: now, deleted: now };
      const record = { ...old.record, id, ...gone };
      const log = old.log.map((entry) => ({ ...entry, book: id }));
      await this.store.append(log, { record });
      const beside = await besideUnder(this.store, from, id);
      return await this.#put(workingCopy(template, text, now), beside);
    } catch (error) {
      return notDone(`Not started again: ${writeTrouble(error)}`);
    }
  }

  #keep(opened: Opened): Keeper {
    const { book, id, revision, savedAt, folded, owed, before, trouble } = opened;
    const keeper: Keeper = new Keeper(
      this.store,
      {
        id,
        revision,
        ...(savedAt === undefined ? {} : { savedAt }),
        ...(folded === undefined ? {} : { folded }),
        ...(owed === undefined ? {} : { owed }),
        ...(before === undefined ? {} : { before }),
        ...(trouble === undefined ? {} : { trouble }),
        title: () => book.title,
        pieces: () => book.savedPieces(),
      },
      (save) => {
        if (keeper !== this.#keeper) {
          if (!keeper.unwritten) void this.#letGo();
          return;
        }
        this.#set({ save });
        if (save.kind !== 'saved') return;
        void this.#askOnce();
        if (!this.#remembered) void this.#remember(this.current.id);
      },
      this.#input.keeper,
    );
    return keeper;
  }

  /** Lets go of what was left and is kept at last: nothing of it is in this page's hands any more. */
  #letGo(): Promise<Done> {
    return this.#alone(async () => {
      for (const [id, { keeper, hold }] of this.#unwritten) {
        if (keeper.unwritten) continue;
        this.#unwritten.delete(id);
        await keeper.close();
        await hold.release();
      }
      return DONE;
    });
  }

  async #askOnce(): Promise<void> {
    if (this.#asked) return;
    this.#asked = true;
    this.#set({ keeping: await askToKeep(this.#input.storage) });
  }

  #watchHold(hold: Hold): void {
    if (hold.access === 'write') return;
    void hold.free.then(() => {
      if (hold === this.#hold) this.#set({ canTakeOver: true });
    });
  }

  #set(change: Partial<BookcaseState>): void {
    const next = { ...this.state.value, ...change };
    const notices = next.notices.filter(({ of = next.current.id }) => of === next.current.id);
    this.state.set(notices.length === next.notices.length ? next : { ...next, notices });
  }
}

const UNOPENED = 'unopened:';

const OPEN_ELSEWHERE =
  'This workbook is open in another tab. Close it there first, or edit it there.';

const NOT_KEPT_YET =
  'Its last changes are not saved yet. Open it, save a copy as a file, or press "Try again" beside its title once there is room.';

type Put = typeof DONE | { readonly ok: false; readonly says: string; readonly trouble: string };

function currentOf(opened: Opened, hold: Hold): Current {
  return { id: opened.id, book: opened.book, origin: opened.origin, access: hold.access };
}

function stateOf(keeper: Keeper, hold: Hold): SaveState {
  return hold.access === 'read' ? { kind: 'reading' } : keeper.state;
}
