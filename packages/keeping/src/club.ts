/** Workbooks that follow a member of a club from device to device: nothing of it is needed without a club. */
export { booksAt } from './club/asking.ts';
export {
  type AboutAtClub,
  type BroughtIn,
  ClubBooks,
  type ClubBooksInput,
} from './club/club-books.ts';
export type { TakeIn } from './club/hands.ts';
export type { BooksPort, ListedAtClub, PersonAtClub } from './club/port.ts';
export type { MeetingHere } from './club/settling.ts';
export { type ClubState, type Standing, standingSentence } from './club/standing.ts';
