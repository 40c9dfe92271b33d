import type { Edit } from '@kerfbook/workbook';
import type { BookStore } from '../book-store.ts';
import type { Bookcase } from '../bookcase.ts';
import { ClubBooks, type ClubBooksInput } from '../club/club-books.ts';
import type { PersonAtClub } from '../club/port.ts';
import type { FakeClub, Line } from './fake-club.ts';
import { change, openPage, saveAndOpen, TestStore } from './sample.ts';

/** A device of a member with its workbooks, its page and its line to the club. */
export interface ClubDevice {
  readonly store: BookStore;
  readonly page: Bookcase;
  readonly books: ClubBooks;
  readonly line: Line;
}

/** Opens a device of a member; `store` outlives it. */
export async function deviceOf(
  club: FakeClub,
  me: PersonAtClub,
  device: string,
  { store = new TestStore(), ...input }: Partial<ClubBooksInput> & { store?: BookStore } = {},
): Promise<ClubDevice> {
  const page = await openPage(store, { ...(input.locks && { locks: input.locks }) });
  const line: Line = { off: false, deaf: 0 };
  const port = club.portOf(me, line);
  const books = new ClubBooks({
    bookcase: page,
    port,
    me,
    device,
    pause: 1,
    around: 0,
    rest: 0,
    ...input,
  });
  return { store, page, books, line };
}

/** Types into cells of the workbook at hand: `{ 1: 'oak' }` into column A of row 1, counted from 0. */
export function type({ page }: ClubDevice, cells: Readonly<Record<number, string>>): void {
  const typed = Object.entries(cells).map(([row, text]) => ({ row: Number(row), column: 0, text }));
  change(page, { do: 'enter', sheet: 's1', cells: typed } satisfies Edit);
}

/** What stands in column A of the workbook at hand. */
export const column = ({ page }: ClubDevice): readonly string[] => {
  const { book } = page.current;
  const rows = book.sheet('s1')?.rows ?? 0;
  return Array.from(
    { length: rows },
    (_, row) => book.cell({ sheet: 's1', row, column: 0 }).shown.text,
  );
};

/** Two devices with one workbook open on both; answers its id. */
export async function sharedBench(one: ClubDevice, other: ClubDevice): Promise<string> {
  await saveAndOpen(one.page, 'Hall bench');
  const { id } = one.page.current;
  const [done] = await one.books.bringIn([id]);
  if (done?.done.ok !== true) throw new Error(JSON.stringify(done));
  const taken = await other.books.takeFromClub();
  if (taken.came !== 1) throw new Error(JSON.stringify(taken));
  const opened = await other.page.open(id);
  if (!opened.ok) throw new Error(opened.says);
  return id;
}
