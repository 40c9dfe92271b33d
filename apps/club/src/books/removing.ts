import type { Club, Write } from '../club.ts';
import { letBytesGo } from '../kept/documents.ts';

/** Takes a workbook out of the club with all of its states; devices that have it keep it. */
export async function letBookGo(club: Club, t: Write, book: string): Promise<void> {
  const { id } = club;
  const states = await t
    .selectFrom('book_state')
    .select('blob')
    .where('club', '=', id)
    .where('book', '=', book)
    .execute();
  for (const table of ['book_state', 'book_member'] as const) {
    await t.deleteFrom(table).where('club', '=', id).where('book', '=', book).execute();
  }
  await t.deleteFrom('book').where('club', '=', id).where('id', '=', book).execute();
  await letBytesGo(
    club,
    t,
    states.map(({ blob }) => blob),
  );
}
