import { ClubRefused } from '@kerfbook/protocol';
import type { BooksPort, ListedAtClub, PersonAtClub, StateAtClub } from '../club/port.ts';

interface KeptState extends StateAtClub {
  readonly number: number;
}

interface KeptAtClub {
  readonly id: string;
  readonly owner: PersonAtClub;
  readonly with: PersonAtClub[];
  readonly titles: string[];
  readonly states: KeptState[];
}

/** Two invented members. */
export const ADA: PersonAtClub = { id: 'member-ada', name: 'Ada' };
/** The other one. */
export const BEN: PersonAtClub = { id: 'member-ben', name: 'Ben' };

/** What happens to a question on its way. */
export interface Line {
  /** No question arrives. */
  off: boolean;
  /** Questions that change something arrive, and their answers do not: so many. */
  deaf: number;
}

/** A club in memory that takes a state on top of the last one only, as the server does. */
export class FakeClub {
  readonly books = new Map<string, KeptAtClub>();
  readonly people: readonly PersonAtClub[] = [ADA, BEN];
  /** How often a workbook was asked for with its text, or sent. */
  texts = 0;
  /** Refuses every state with this. */
  refuses: ClubRefused | undefined;

  /** The club as a member's device reaches it. */
  portOf(me: PersonAtClub, line: Line = { off: false, deaf: 0 }): BooksPort {
    const asked = async <T>(work: () => T, isChange = false): Promise<T> => {
      await Promise.resolve();
      if (line.off) throw away();
      const done = work();
      if (isChange && line.deaf > 0) {
        line.deaf -= 1;
        throw away();
      }
      return done;
    };
    const own = (id: string): KeptAtClub => {
      const book = this.#seenBy(id, me);
      if (book.owner.id !== me.id) throw new ClubRefused('notAllowed', 'This is not yours.');
      return book;
    };
    return {
      list: () =>
        asked(() =>
          [...this.books.values()].filter((book) => maySee(book, me)).map((book) => listed(book)),
        ),
      keep: (body) =>
        asked(() => {
          const there = this.books.get(body.id);
          if (there !== undefined && there.states[0]?.sign !== body.sign) throw changed(there);
          if (there === undefined) {
            const book = { id: body.id, owner: me, with: [], titles: [], states: [] };
            this.books.set(body.id, book);
            this.#add(book, body, me);
          }
          return 1;
        }, true),
      book: (id, since) =>
        asked(() => {
          const book = this.#seenBy(id, me);
          const last = book.states.at(-1);
          if (last === undefined) throw new Error('a workbook without a state');
          const { number, ...state } = last;
          if (since === number) return { book: listed(book) };
          this.texts += 1;
          return { book: listed(book), state };
        }),
      add: (id, body) =>
        asked(() => {
          if (this.refuses !== undefined) throw this.refuses;
          const book = this.#seenBy(id, me);
          if (headOf(book) !== body.parent) throw changed(book);
          return this.#add(book, body, me);
        }, true),
      states: (id) => asked(() => this.#seenBy(id, me).states),
      letGo: (id) => asked(() => void this.books.delete(own(id).id), true),
      share: (id, member) =>
        asked(() => {
          const book = own(id);
          const person = this.people.find((one) => one.id === member);
          if (person === undefined) throw new ClubRefused('notThere', 'There is no such member.');
          if (!book.with.includes(person)) book.with.push(person);
        }, true),
      unshare: (id, member) =>
        asked(() => {
          const book = this.#seenBy(id, me);
          const at = book.with.findIndex((one) => one.id === member);
          if (at >= 0) book.with.splice(at, 1);
        }, true),
    };
  }

  #seenBy(id: string, me: PersonAtClub): KeptAtClub {
    const book = this.books.get(id);
    if (book !== undefined && maySee(book, me)) return book;
    throw new ClubRefused('notThere', 'The club has no such workbook for you.');
  }

  #add(
    book: KeptAtClub,
    body: { readonly title: string; readonly text: string; readonly sign: string; device: string },
    by: PersonAtClub,
  ): number {
    const { text, sign, device, title } = body;
    this.texts += 1;
    const number = headOf(book) + 1;
    book.states.push({ number, text, sign, by, device, at: number });
    book.titles.push(title);
    return number;
  }
}

const maySee = (book: KeptAtClub, me: PersonAtClub): boolean =>
  [book.owner, ...book.with].some(({ id }) => id === me.id);

const headOf = (book: KeptAtClub): number => book.states.at(-1)?.number ?? 0;

const listed = (book: KeptAtClub): ListedAtClub => ({
  id: book.id,
  title: book.titles.at(-1) ?? '',
  head: headOf(book),
  changed: headOf(book),
  owner: book.owner,
  with: [...book.with],
});

const away = (): ClubRefused => new ClubRefused('away', 'The club cannot be reached.');
const changed = (book: KeptAtClub): ClubRefused =>
  new ClubRefused('changed', 'It was changed meanwhile.', { head: headOf(book) });
