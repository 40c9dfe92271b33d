import type { Edit } from '@kerfbook/workbook';
import type { BookStore } from './book-store.ts';
import {
  type BookcaseState,
  type Current,
  DONE,
  type Done,
  type Notice,
  notDone,
  Watched,
} from './bookcase-state.ts';
import { Keeper, type KeeperOptions } from './keeper.ts';
import { type Hold, holdBook, type Locks } from './locks.ts';
import { MemoryStore } from './memory-store.ts';
import { newBookId } from './new-id.ts';
import {
  isTouched,
  type Opened,
  type OpenedOrNot,
  openKept,
  openWorkingCopy,
  textOf,
  workingCopy,
} from './opening.ts';
import { askToKeep, type StorageManagerLike } from './persistence.ts';
import { type BookRecord, DAY, type Origin, TRASH_DAYS } from './records.ts';
import type { SaveState } from './save-state.ts';
import { type ShippedTemplate, workingCopyId } from './templates.ts';
import { writeTrouble } from './trouble.ts';
import { Versions } from './versions.ts';

export interface BookcaseParts {
  readonly templates: readonly ShippedTemplate[];
  /** Opens the store of this device; rejects where the browser lets pages keep nothing. */
  readonly openStore: () => Promise<BookStore>;
  readonly locks?: Locks | undefined;
  readonly storage?: StorageManagerLike | undefined;
  readonly keeper?: KeeperOptions;
  readonly now?: () => number;
}

const LAST_OPENED = 'lastOpened';

/** Changes after which an earlier state is kept. */
const EDITS_TO_A_VERSION = 50;

/**
 * The workbooks on this device and the one at hand. Opens, keeps and files them; the app shows
 * `state.current.book`, changes it through `apply`-like calls of its own, and tells `record`.
 */
export class Bookcase {
  readonly store: BookStore;
  readonly templates: readonly ShippedTemplate[];
  readonly now: () => number;
  readonly state: Watched<BookcaseState>;
  readonly #parts: BookcaseParts;
  #keeper: Keeper;
  #hold: Hold;
  #asked = false;
  #sinceVersion = 0;
  #noticed = 0;

  private constructor(parts: BookcaseParts, store: BookStore, opened: Opened, hold: Hold) {
    this.#parts = parts;
    this.store = store;
    this.templates = parts.templates;
    this.now = parts.now ?? Date.now;
    this.#hold = hold;
    this.#keeper = this.#keep(opened);
    this.state = new Watched<BookcaseState>({
      current: currentOf(opened, hold),
      save: stateOf(this.#keeper, hold),
      canTakeOver: false,
      keeping: 'unknown',
      notices: [],
    });
    if (opened.says !== undefined) this.notice(opened.says);
    this.#watchHold(hold);
    void this.#keepVersion();
  }

  /** Opens what was open last, or the first template that ships. */
  static async start(parts: BookcaseParts): Promise<Bookcase> {
    const now = parts.now ?? Date.now;
    const first = parts.templates[0];
    if (first === undefined) throw new Error('the app ships no template');
    const { store, trouble } = await openStore(parts);
    if (store.lasting) await emptyTrash(store, now());
    const last = await store.get(LAST_OPENED);
    const wanted = typeof last === 'string' ? last : workingCopyId(first.key);
    let hold = await holdBook(wanted, parts.locks);
    let result = await openAny(store, parts.templates, wanted, hold.access === 'write', now());
    const says = result.ok ? trouble : result.says;
    if (!result.ok) {
      hold.release();
      hold = await holdBook(workingCopyId(first.key), parts.locks);
      result = await openAny(
        store,
        parts.templates,
        workingCopyId(first.key),
        hold.access === 'write',
        now(),
      );
    }
    if (result.ok) return new Bookcase(parts, store, result.opened, hold).told(says);
    // Neither can be read or kept: show the template itself, and say that nothing is saved.
    const memory = new MemoryStore();
    const fresh = await openWorkingCopy(memory, first, true, now());
    if (!fresh.ok) throw new Error(fresh.says);
    return new Bookcase(parts, memory, fresh.opened, hold).told(says ?? result.says);
  }

  get current(): Current {
    return this.state.value.current;
  }

  /** True while closing the page would lose something. */
  get unsafe(): boolean {
    return this.current.access === 'write' && this.#keeper.unsafe;
  }

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

  retry(): Promise<void> {
    return this.#keeper.retry();
  }

  /** Folds the log into the saved text; for when the page is hidden or about to go. */
  async fold(): Promise<void> {
    if (this.current.access === 'write') await this.#keeper.fold();
  }

  /** Shows another workbook of this device, or a template's working copy. */
  async open(id: string): Promise<Done> {
    if (id === this.current.id) return DONE;
    const hold = await holdBook(id, this.#parts.locks);
    return this.#show(hold, await this.#read(id, hold.access === 'write'));
  }

  /** Makes a workbook from a text that `loadText` accepts, and shows it. */
  async add(text: string, title: string, origin: Origin): Promise<Done> {
    const now = this.now();
    const id = newBookId();
    const record = { id, title, origin, created: now, updated: now, revision: 0, text };
    const kept = await this.#put(record);
    return kept.ok ? this.open(id) : kept;
  }

  /** Puts the changed working copy into the trash and shows the template as it ships. */
  async startAgain(key: string): Promise<Done> {
    const template = this.templates.find((one) => one.key === key);
    if (template === undefined) return notDone('That template does not ship with this app.');
    // First of all, so that nothing is closed or filed where it cannot be had.
    const text = await template.text().catch(() => undefined);
    if (text === undefined) return notDone(NO_TEMPLATE);
    const id = workingCopyId(key);
    if (this.current.id === id) {
      if (this.current.access === 'read') return notDone(OPEN_ELSEWHERE);
      await this.#keeper.close();
      const done = await this.#freshCopy(template, text);
      return done.ok ? this.#show(this.#hold, await this.#read(id, true)) : done;
    }
    return this.whileHeld(id, async () => {
      const done = await this.#freshCopy(template, text);
      return done.ok ? this.open(id) : done;
    });
  }

  /** Does something to a workbook that no tab has open. */
  async whileHeld(id: string, work: () => Promise<Done>): Promise<Done> {
    const hold = await holdBook(id, this.#parts.locks);
    if (hold.access === 'read') {
      hold.release();
      return notDone(OPEN_ELSEWHERE);
    }
    try {
      return await work();
    } catch (error) {
      return notDone(`That did not work: ${writeTrouble(error)}`);
    } finally {
      hold.release();
    }
  }

  /** For a reading tab whose writer has gone: reads what it left and writes from there on. */
  async takeOver(): Promise<Done> {
    if (!this.state.value.canTakeOver) return notDone(OPEN_ELSEWHERE);
    const hold: Hold = { ...this.#hold, access: 'write', release: () => this.#hold.release() };
    return this.#show(hold, await this.#read(this.current.id, true));
  }

  told(says: string | undefined): this {
    if (says !== undefined) this.notice(says);
    return this;
  }

  notice(says: string): void {
    this.#noticed += 1;
    const notice: Notice = { id: this.#noticed, says };
    this.#set({ notices: [...this.state.value.notices, notice] });
  }

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

  async #show(hold: Hold, result: OpenedOrNot): Promise<Done> {
    if (!result.ok) {
      if (hold !== this.#hold) hold.release();
      return result;
    }
    const { opened } = result;
    if (opened.id !== this.current.id) {
      if (this.current.access === 'write') await this.#keeper.close();
      this.#hold.release();
    }
    this.#hold = hold;
    this.#keeper = this.#keep(opened);
    this.#set({
      current: currentOf(opened, hold),
      save: stateOf(this.#keeper, hold),
      canTakeOver: false,
    });
    if (opened.says !== undefined) this.notice(opened.says);
    this.#watchHold(hold);
    void this.#keepVersion();
    await this.store.set(LAST_OPENED, opened.id).catch(() => undefined);
    return DONE;
  }

  async #put(record: BookRecord): Promise<Done> {
    try {
      await this.store.put(record);
      return DONE;
    } catch (error) {
      return notDone(`Not saved: ${writeTrouble(error)}`);
    }
  }

  /** The old working copy stays in the trash under an id of its own. */
  async #freshCopy(template: ShippedTemplate, text: string): Promise<Done> {
    const now = this.now();
    const old = await this.store.read(workingCopyId(template.key));
    if (old !== undefined && isTouched(old)) {
      const id = newBookId();
      const kept = await this.#put({ ...old.record, id, updated: now, deleted: now });
      if (!kept.ok) return kept;
      await this.store.append(old.log.map((entry) => ({ ...entry, book: id })));
    }
    return this.#put(workingCopy(template, text, now));
  }

  #keep(opened: Opened): Keeper {
    const { book, id, revision, savedAt } = opened;
    const keeper: Keeper = new Keeper(
      this.store,
      {
        id,
        revision,
        ...(savedAt === undefined ? {} : { savedAt }),
        title: () => book.title,
        pieces: () => book.savedPieces(),
      },
      (save) => {
        if (keeper !== this.#keeper) return;
        this.#set({ save });
        if (save.kind === 'saved') void this.#askOnce();
      },
      this.#parts.keeper,
    );
    return keeper;
  }

  async #askOnce(): Promise<void> {
    if (this.#asked) return;
    this.#asked = true;
    this.#set({ keeping: await askToKeep(this.#parts.storage) });
  }

  #watchHold(hold: Hold): void {
    if (hold.access === 'write') return;
    void hold.free.then(() => {
      if (hold === this.#hold) this.#set({ canTakeOver: true });
    });
  }

  #set(change: Partial<BookcaseState>): void {
    this.state.set({ ...this.state.value, ...change });
  }
}

export const NO_TEMPLATE =
  'The template could not be read: it is not kept on this device yet. Try again with a network.';

export const OPEN_ELSEWHERE =
  'This workbook is open in another tab. Close it there first, or go on there.';

function currentOf(opened: Opened, hold: Hold): Current {
  return { id: opened.id, book: opened.book, origin: opened.origin, access: hold.access };
}

function stateOf(keeper: Keeper, hold: Hold): SaveState {
  return hold.access === 'read' ? { kind: 'reading' } : keeper.state;
}

async function openStore(parts: BookcaseParts): Promise<{ store: BookStore; trouble?: string }> {
  try {
    return { store: await parts.openStore() };
  } catch (error) {
    return { store: new MemoryStore(), trouble: `Nothing is saved here: ${writeTrouble(error)}` };
  }
}

async function emptyTrash(store: BookStore, now: number): Promise<void> {
  for (const head of await store.list()) {
    if (head.deleted !== undefined && now - head.deleted > TRASH_DAYS * DAY) {
      await store.destroy(head.id);
    }
  }
}

async function openAny(
  store: BookStore,
  templates: readonly ShippedTemplate[],
  id: string,
  mayWrite: boolean,
  now: number,
): Promise<OpenedOrNot> {
  const template = templates.find(({ key }) => workingCopyId(key) === id);
  try {
    return template === undefined
      ? await openKept(store, id, mayWrite, now)
      : await openWorkingCopy(store, template, mayWrite, now);
  } catch (error) {
    return { ok: false, says: `That workbook could not be opened: ${writeTrouble(error)}` };
  }
}
