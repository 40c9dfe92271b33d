import { Id } from '@kerfbook/protocol';
import type { Choices } from '@kerfbook/workbook';
import type { Bookcase } from '../bookcase.ts';
import { DONE, type Done, notDone, Watched } from '../bookcase-state.ts';
import { destroyBook } from '../filing.ts';
import { holdBook, type Locks } from '../locks.ts';
import { newBookId } from '../new-id.ts';
import { isTouched } from '../opening.ts';
import { writeTrouble } from '../trouble.ts';
import {
  allFollowing,
  beginning,
  type Following,
  followingOf,
  followingValues,
  letLeftStatesGo,
  letStatesGo,
} from './following.ts';
import { type TakeIn, takeInUnseen } from './hands.ts';
import type { BooksPort, ListedAtClub } from './port.ts';
import { type Desk, inStepWithClub, keepFollowing, takenFromClub } from './round.ts';
import { type MeetingHere, meetingHere, settleMeeting } from './settling.ts';
import type { ClubState, Standing } from './standing.ts';
import { codeOf, whySays } from './trouble.ts';

/** What workbooks follow a member by. */
export interface ClubBooksInput {
  /** The workbooks of this device. */
  readonly bookcase: Bookcase;
  /** Asks the club. */
  readonly port: BooksPort;
  /** Who is signed in. */
  readonly me: { readonly id: string };
  /** What others call this device: `tablet`. */
  readonly device: string;
  /** Of the browser, so that one tab asks about a workbook at a time; left out where it has none. */
  readonly locks?: Locks | undefined;
  /**
   * Carries out on the workbook at hand what came in, with `cameIn` (rule U6: a locked workbook takes it too, and undo
   * leaves it), draws it, says it, and records it in the bookcase. Nothing is drawn where left out.
   */
  readonly takeIn?: TakeIn;
  /** How long after the last edit it is sent, ms. */
  readonly pause?: number;
  /** How often the list of the club is asked for while the page looks, ms. */
  readonly around?: number;
  /** How long a club that was not reached is left alone, ms. */
  readonly rest?: number;
}

/** What came of giving one workbook to the club. */
export interface BroughtIn {
  /** Its id on this device. */
  readonly id: string;
  /** Done once the club said that it has it. */
  readonly done: Done;
}

const HERE: Standing = { kind: 'here' };
const GOES = 'clubgoes:';
/** By its id at the club: its maker wants that workbook to stay on this device alone; with its id here. */
const STAYS = 'clubstays:';

/** What is known of a workbook that follows. */
export interface AboutAtClub {
  /** Its id at the club. */
  readonly at: string;
  /** It is this member's own: he shares it, and may take it out of the club. */
  readonly isOwn: boolean;
  /** Who made the last state that came from elsewhere. */
  readonly by?: Following['by'];
  /** As the club listed it last; left out where it was not asked yet. */
  readonly listed?: ListedAtClub;
  /** When both were last known to be the same, ms since 1970; left out where that was before this page. */
  readonly inStep?: number;
}

/**
 * Workbooks that follow a member from device to device. Each change is sent when the maker pauses, what others changed
 * comes in, and what both changed is put together (rules H7 to H10); nothing overwrites what it has not seen.
 */
export class ClubBooks {
  /** How things stand, to be watched. */
  readonly state: Watched<ClubState>;
  readonly #desk: Desk;
  readonly #input: ClubBooksInput;
  readonly #standing = new Map<string, Standing>();
  /** Numbers of the edits that the club has, by the ids of workbooks here. */
  readonly #known = new Map<string, number>();
  #seen: { readonly id: string; readonly revision: number };
  /** When the records of workbooks that are not open were in step last. */
  readonly #looked = new Map<string, number>();
  /** Ids at the club of what this member may open there, as of the last look around. */
  #mayOpen: ReadonlySet<string> = new Set();
  /** What the club listed last, by its ids. */
  #listed: ReadonlyMap<string, ListedAtClub> = new Map();
  readonly #inStep = new Map<string, number>();
  #away: number | undefined;
  #askAgain = 0;
  #around = Number.NEGATIVE_INFINITY;
  #signedOut = false;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #turn: Promise<unknown> = Promise.resolve();
  #stopped = false;
  readonly #unwatch: () => void;

  constructor(input: ClubBooksInput) {
    const { bookcase, port, me, device, takeIn } = input;
    this.#input = input;
    this.state = new Watched<ClubState>({ books: new Map() });
    this.#desk = {
      bookcase,
      port,
      me,
      device,
      takeIn: takeIn ?? takeInUnseen(bookcase),
      meetings: new Map(),
      show: (id, standing) => this.#show(id, standing),
    };
    this.#seen = { id: bookcase.current.id, revision: bookcase.revision };
    this.#unwatch = bookcase.state.watch(() => this.#heard());
    void this.#alone(() => this.#learn());
  }

  /** What is known before the club was asked: so that it is shown without a network, too. */
  async #learn(): Promise<void> {
    const [following, heads] = await Promise.all([
      allFollowing(this.#store),
      this.#store.list(),
    ]).catch(() => [new Map<string, Following>(), []] as const);
    for (const { id, revision, deleted } of heads) {
      const one = following.get(id);
      if (one === undefined || one.member !== this.#desk.me.id || deleted !== undefined) continue;
      this.#known.set(id, one.revision);
      const changes = one.head === 0 || one.revision < 0 ? 1 : Math.max(0, revision - one.revision);
      this.#standing.set(id, changes === 0 ? { kind: 'inStep' } : { kind: 'unsent', changes });
    }
    this.#tellUnsent();
    await letLeftStatesGo(this.#store);
  }

  get #store() {
    return this.#desk.bookcase.store;
  }

  /** How a workbook of this device stands with the club. */
  standing(id: string): Standing {
    return this.state.value.books.get(id) ?? HERE;
  }

  /** Nothing is asked any more; workbooks stay, and follow again when their member signs in. */
  stop(): void {
    this.#stopped = true;
    clearTimeout(this.#timer);
    this.#unwatch();
  }

  /**
   * Looks at the club: at the workbook at hand, and now and then at all others. For a page that is seen, every
   * second or two.
   * @param all `all`: at all of them now, also where the club was away a moment ago
   */
  look(all?: 'all'): Promise<void> {
    return this.#alone(async () => {
      const now = this.#desk.bookcase.now();
      if (all === undefined && now < this.#askAgain) return;
      const { around = 30_000 } = this.#input;
      const { id } = this.#desk.bookcase.current;
      const isDue = all !== undefined || now - this.#around >= around;
      const listed = isDue ? await this.#reached(() => this.#desk.port.list()) : undefined;
      if (isDue && listed === undefined) return this.#tellUnsent();
      if (listed !== undefined) {
        this.#around = now;
        this.#knows(listed);
        await this.#letGoWhatGoes();
      }
      await this.#bring(id, await followingOf(this.#store, id));
      if (listed !== undefined) await this.#others(listed, id);
    });
  }

  /** Gives workbooks of this device to the club, one after the other; what is there already is recognized. */
  async bringIn(ids: readonly string[]): Promise<readonly BroughtIn[]> {
    const done: BroughtIn[] = [];
    await this.#alone(async () => {
      for (const id of ids) done.push({ id, done: await this.#bringIn(id) });
    });
    return done;
  }

  /** Makes workbooks of the club that this device has not; what could not be read is told. Answers how many came. */
  takeFromClub(): Promise<{ readonly done: Done; readonly came: number }> {
    return this.#alone(async () => {
      let came = 0;
      try {
        const listed = await this.#desk.port.list();
        this.#knows(listed);
        const following = await allFollowing(this.#store);
        const there = new Set([...following.values()].map(({ at }) => at));
        const goes = new Set(await this.#goes());
        const stays = await this.#store.values(STAYS);
        for (const book of listed) {
          if (there.has(book.id) || goes.has(book.id)) continue;
          const here = stays.get(STAYS + book.id);
          if (typeof here === 'string' && (await this.#store.read(here)) !== undefined) continue;
          const kept = await this.#store.read(book.id);
          // It was given to the club before and follows no more: whether it is still the same is seen now.
          if (kept !== undefined && kept.record.deleted === undefined) {
            await this.#begin(book.id, book.id);
            await this.#bring(book.id, await followingOf(this.#store, book.id));
            continue;
          }
          const id = kept === undefined ? book.id : newBookId();
          if (!(await takenFromClub(this.#desk, book, id))) continue;
          came += 1;
          this.#known.set(id, 0);
          this.#show(id, { kind: 'inStep' });
        }
        return { done: DONE, came };
      } catch (error) {
        this.#notReached(error);
        return { done: notDone(whyNot(error)), came };
      }
    });
  }

  /** What is known of all workbooks of this device that follow, by their ids here. */
  async about(): Promise<ReadonlyMap<string, AboutAtClub>> {
    const { me } = this.#desk;
    return new Map(
      [...(await allFollowing(this.#store))].map(([id, { at, owner, by }]) => {
        const listed = this.#listed.get(at);
        const inStep = this.#inStep.get(id);
        return [
          id,
          {
            at,
            isOwn: owner === me.id,
            ...(by && { by }),
            ...(listed && { listed }),
            ...(inStep !== undefined && { inStep }),
          },
        ];
      }),
    );
  }

  /** Who changed the same as the maker here, and on which device; nothing where there is nothing to choose about. */
  metBy(id: string): Pick<MeetingHere, 'by' | 'device'> | undefined {
    return this.#desk.meetings.get(id);
  }

  /** Workbooks that wait for their maker's choice, by their ids here. */
  meetings(): readonly string[] {
    return [...this.#desk.meetings.keys()];
  }

  /** What is to be chosen about in one of them. */
  meeting(id: string): Promise<MeetingHere | { readonly says: string }> {
    return this.#alone(() => meetingHere(this.#desk, id));
  }

  /**
   * Brings in what the club has, with a choice at each place, and sends what came of it.
   * @param head of the meeting that was shown: refused where the club has another one by now
   */
  settle(id: string, choices: Choices, head?: number): Promise<Done> {
    return this.#alone(async () => {
      const done = await settleMeeting(this.#desk, id, choices, head);
      await this.#bring(id, await followingOf(this.#store, id));
      return done;
    });
  }

  /** By its owner: another member may open and change the workbook. */
  share(id: string, member: string): Promise<Done> {
    return this.#asked(id, (at) => this.#desk.port.share(at, member));
  }

  /** Takes that back; or leaves a workbook that another member shared, which then stays as it is here. */
  unshare(id: string, member: string): Promise<Done> {
    return this.#asked(id, (at) => this.#desk.port.unshare(at, member));
  }

  /** The workbook goes from the club, if it is this member's, and stays on the devices that have it. */
  letGo(id: string): Promise<Done> {
    return this.#asked(id, async (at) => {
      await this.#desk.port.letGo(at).catch((error: unknown) => {
        if (codeOf(error) !== 'notThere') throw error;
      });
      await this.#unfollow(id);
    });
  }

  /** The workbook follows no more on this device; what the club has stays there, and is not taken from there again. */
  stopFollowing(id: string): Promise<Done> {
    return this.#alone(async () => {
      try {
        const one = await followingOf(this.#store, id);
        if (one !== undefined) await this.#store.set(STAYS + one.at, id);
        await this.#unfollow(id);
        return DONE;
      } catch (error) {
        return notDone(`Not done: ${writeTrouble(error)}`);
      }
    });
  }

  /**
   * Removes a workbook from this device for good. One of this member's own goes from the club too, as soon as that is
   * reached; one that another member shared stays there.
   */
  async destroy(id: string): Promise<Done> {
    const one = await followingOf(this.#store, id);
    const isOwn = one !== undefined && one.owner === this.#desk.me.id;
    if (isOwn) await this.#store.set(GOES + one.at, this.#desk.me.id);
    const done = await destroyBook(this.#desk.bookcase, id);
    if (!done.ok) {
      if (isOwn) await this.#store.set(GOES + one.at, undefined);
      return done;
    }
    this.#forget(id);
    if (isOwn) await this.#alone(() => this.#letGoWhatGoes());
    return DONE;
  }

  /** The same with everything in the trash. */
  async emptyTrash(): Promise<Done> {
    for (const { id, deleted } of await this.#store.list()) {
      if (deleted === undefined) continue;
      const done = await this.destroy(id);
      if (!done.ok) return done;
    }
    return DONE;
  }

  /** One after the other: each begins with what the one before it kept. */
  #alone<T>(work: () => Promise<T>): Promise<T> {
    const done = this.#turn.then(work);
    this.#turn = done.catch(() => undefined);
    return done;
  }

  /** Something was changed, or another workbook is at hand. */
  #heard(): void {
    const { bookcase } = this.#desk;
    const { id } = bookcase.current;
    const { revision } = bookcase;
    const before = this.#seen;
    if (before.id === id && before.revision === revision) return;
    this.#seen = { id, revision };
    // What was left is in step as it was left.
    if (before.id !== id) this.#around = Number.NEGATIVE_INFINITY;
    this.#tellUnsent();
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#pause(), this.#input.pause ?? 1_000);
  }

  async #pause(): Promise<void> {
    await this.#alone(async () => {
      if (this.#desk.bookcase.now() < this.#askAgain) return;
      const { id } = this.#desk.bookcase.current;
      await this.#bring(id, await followingOf(this.#store, id));
    });
  }

  #knows(listed: readonly ListedAtClub[]): void {
    this.#listed = new Map(listed.map((book) => [book.id, book]));
    this.#mayOpen = new Set(this.#listed.keys());
  }

  /** Counts what was changed since the club had the workbook at hand. */
  #tellUnsent(): void {
    const { id } = this.#desk.bookcase.current;
    const { kind } = this.#standing.get(id) ?? HERE;
    const known = this.#known.get(id) ?? -1;
    if (known >= 0 && (kind === 'inStep' || kind === 'unsent')) {
      const changes = Math.max(0, this.#desk.bookcase.revision - known);
      if (changes > 0) this.#standing.set(id, { kind: 'unsent', changes });
    }
    this.#tell();
  }

  /** Brings one workbook in step, in one tab at a time. */
  async #bring(id: string, one: Following | undefined): Promise<void> {
    if (this.#stopped || one === undefined) return;
    // Another member of this device gave it to the club, and does not share it.
    if (one.member !== this.#desk.me.id && !this.#mayOpen.has(one.at)) return;
    const hold = await holdBook(`club:${id}`, this.#input.locks);
    try {
      if (hold.access === 'read') return;
      const standing = await this.#reached(() => inStepWithClub(this.#desk, id), id);
      // What came in before the club was gone is no change that waits to be sent.
      const now = await followingOf(this.#store, id);
      if (now !== undefined) this.#known.set(id, now.revision);
      if (standing !== undefined) this.#show(id, standing);
      this.#tellUnsent();
    } finally {
      await hold.release();
    }
  }

  /** The workbooks that are not at hand: those that the club has otherwise, and those that were changed here. */
  async #others(listed: readonly ListedAtClub[], current: string): Promise<void> {
    const following = await allFollowing(this.#store);
    const heads = new Map((await this.#store.list()).map((head) => [head.id, head]));
    const there = new Map(listed.map((book) => [book.id, book]));
    for (const [id, one] of following) {
      const head = heads.get(id);
      if (id === current || head === undefined || head.deleted !== undefined) continue;
      const book = there.get(one.at);
      const isSame = this.#looked.get(id) === head.updated && one.sent.length === 0;
      if (isSame && book?.head === one.head && this.#standing.get(id)?.kind === 'inStep') continue;
      await this.#bring(id, one);
      this.#looked.set(id, head.updated);
      if (this.#away !== undefined) return;
    }
  }

  async #bringIn(id: string): Promise<Done> {
    const { bookcase } = this.#desk;
    try {
      if ((await followingOf(this.#store, id)) === undefined) {
        const kept = await this.#store.read(id);
        if (kept === undefined || kept.record.deleted !== undefined) return notDone(GONE);
        const isTemplate = kept.record.origin?.kind === 'template';
        if (isTemplate && !isTouched(kept) && bookcase.inHand(id)?.id !== id) {
          return notDone(NOT_YOURS);
        }
        if (isTemplate && id === bookcase.current.id && bookcase.revision === 0) {
          return notDone(NOT_YOURS);
        }
        const taken = [...(await allFollowing(this.#store)).values()].some(({ at }) => at === id);
        const was = [...(await this.#store.values(STAYS))].find(([, here]) => here === id)?.[0];
        const before = was?.slice(STAYS.length);
        const isNew = isTemplate || taken || !Id.safeParse(id).success;
        const at = before ?? (isNew ? newBookId() : id);
        if (was !== undefined) await this.#store.set(was, undefined);
        await this.#begin(id, at);
      }
    } catch (error) {
      return notDone(`Not kept at the club: ${writeTrouble(error)}`);
    }
    await this.#bring(id, await followingOf(this.#store, id));
    if (this.#signedOut) return notDone('Sign in to the club again.');
    if (this.#away !== undefined) return notDone(AWAY);
    const standing = this.#standing.get(id);
    if (standing?.kind === 'inStep') return DONE;
    return notDone(standing?.kind === 'refused' ? standing.says : LATER);
  }

  async #begin(id: string, at: string): Promise<void> {
    await keepFollowing(this.#desk, id, undefined, beginning(at, this.#desk.me.id));
  }

  #asked(id: string, work: (at: string) => Promise<void>): Promise<Done> {
    return this.#alone(async () => {
      const one = await followingOf(this.#store, id);
      if (one === undefined || one.head === 0) return notDone(ONLY_HERE);
      try {
        await work(one.at);
        return DONE;
      } catch (error) {
        this.#notReached(error);
        return notDone(whyNot(error));
      }
    });
  }

  async #unfollow(id: string): Promise<void> {
    const one = await followingOf(this.#store, id);
    await this.#store.setAll(followingValues(id, one, undefined));
    await letStatesGo(this.#store, one, undefined);
    this.#forget(id);
  }

  #forget(id: string): void {
    this.#desk.meetings.delete(id);
    this.#standing.delete(id);
    this.#known.delete(id);
    this.#tell();
  }

  async #goes(): Promise<readonly string[]> {
    return (await this.#store.keys(GOES)).map((key) => key.slice(GOES.length));
  }

  /** Has the club let go of what was deleted here for good while it was away. */
  async #letGoWhatGoes(): Promise<void> {
    for (const [key, member] of await this.#store.values(GOES)) {
      if (member !== this.#desk.me.id) continue;
      try {
        await this.#desk.port.letGo(key.slice(GOES.length));
      } catch (error) {
        if (codeOf(error) !== 'notThere' && codeOf(error) !== 'notAllowed') {
          this.#notReached(error);
          return;
        }
      }
      await this.#store.set(key, undefined);
    }
  }

  /** What came of asking the club about a workbook; nothing where it was not reached, or this device could not keep it. */
  async #reached<T>(work: () => Promise<T>, id?: string): Promise<T | undefined> {
    try {
      const done = await work();
      this.#away = undefined;
      this.#signedOut = false;
      this.#tell();
      return done;
    } catch (error) {
      if (id !== undefined) this.#failed(id, error);
      this.#notReached(error);
      return undefined;
    }
  }

  #failed(id: string, error: unknown): void {
    if (codeOf(error) === undefined) {
      this.#standing.set(id, { kind: 'refused', says: `Not in step: ${writeTrouble(error)}` });
    } else if (this.#standing.get(id)?.kind === 'sending') {
      this.#standing.set(id, { kind: 'unsent', changes: 1 });
    }
  }

  #notReached(error: unknown): void {
    const code = codeOf(error);
    const now = this.#desk.bookcase.now();
    const wait = (error as { readonly wait?: number }).wait;
    this.#askAgain = now + (wait === undefined ? (this.#input.rest ?? 5_000) : wait * 1_000);
    if (code === 'signedOut') this.#signedOut = true;
    else if (code !== undefined && code !== 'tooOften') this.#away ??= now;
    // More may have been changed while it was on its way.
    this.#tellUnsent();
  }

  #show(id: string, standing: Standing): void {
    if (standing.kind === 'inStep') this.#inStep.set(id, this.#desk.bookcase.now());
    this.#standing.set(id, standing);
    this.#tell();
  }

  #tell(): void {
    const away = this.#away;
    const books = [...this.#standing].map(([id, one]): readonly [string, Standing] => {
      if (away === undefined || !['inStep', 'unsent', 'sending'].includes(one.kind)) {
        return [id, one];
      }
      const changes = one.kind === 'unsent' ? one.changes : one.kind === 'sending' ? 1 : 0;
      return [id, { kind: 'away', since: away, changes }];
    });
    this.state.set({
      books: new Map(books),
      ...(away === undefined ? {} : { away }),
      ...(this.#signedOut ? { signedOut: true as const } : {}),
    });
  }
}

const GONE = 'That workbook is not on this device any more.';
const NOT_YOURS =
  'This is a built-in template as it ships. Type your figures into it or save it under a name of yours first.';
const AWAY =
  'The club cannot be reached. It goes on by itself as soon as it is; nothing here is lost.';
const LATER =
  'It is not at the club yet: this workbook is in the midst of a change, open elsewhere, or not saved on this device.';
const ONLY_HERE = 'This workbook is only on this device. Give it to the club first.';

/** What the club says, or what this device could not write. */
const whyNot = (error: unknown): string =>
  codeOf(error) === undefined ? `Not done: ${writeTrouble(error)}` : whySays(error);
