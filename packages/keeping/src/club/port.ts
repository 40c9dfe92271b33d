import type { AnswerOf, Asked } from '@kerfbook/protocol';

/** A workbook as the club lists it. */
export type ListedAtClub = AnswerOf<'books'>['books'][number];

/** What the club answers about one workbook. */
export type AnswerOfBook = AnswerOf<'book'>;

/** The last state of a workbook at the club. */
export type StateAtClub = NonNullable<AnswerOfBook['state']>;

/** A person of the club, as others see him. */
export type PersonAtClub = ListedAtClub['owner'];

/** What is asked of a club for workbooks that follow a member. Each rejects with a `ClubRefused`. */
export interface BooksPort {
  /** All that the member may open: his own, and those that others share with him. */
  list(): Promise<readonly ListedAtClub[]>;
  /** Gives the club a workbook; answers the number of its first state. */
  keep(book: Asked<'keepBook'>['body']): Promise<number>;
  /** What stands now; without a state where `since` is its number. */
  book(id: string, since?: number): Promise<AnswerOfBook>;
  /** Adds a state on top of another one; answers its number. */
  add(id: string, state: Asked<'addState'>['body']): Promise<number>;
  /** The last states, by number and sign. */
  states(
    id: string,
  ): Promise<readonly Pick<AnswerOf<'states'>['states'][number], 'number' | 'sign'>[]>;
  /** By its owner: the club keeps it no more. */
  letGo(id: string): Promise<void>;
  /** By its owner: a member may open and change it. */
  share(id: string, member: string): Promise<void>;
  /** By its owner, or by the one it was shared with. */
  unshare(id: string, member: string): Promise<void>;
}
