import { type AnswerOf, DONE } from '@kerfbook/protocol';
import type { Asker } from '../asker.ts';
import type { Club, Write } from '../club.ts';
import type { BookRow } from '../database/tables.ts';
import { keepBytes, letBytesGo, packedText, readSent } from '../kept/documents.ts';
import { personsOf } from '../kept/persons.ts';
import { notThere, Refused } from '../refused.ts';
import { letBookGo } from './removing.ts';

/** States of a workbook that the club keeps; a device has the one that it came from itself. */
const MOST_STATES = 100;
/** Workbooks of one member. */
const MOST_BOOKS = 2_000;
/** Members that one workbook is shared with. */
const MOST_WITH = 20;

type Listed = AnswerOf<'books'>['books'][number];

interface StateSent {
  readonly title: string;
  readonly text: string;
  readonly sign: string;
  readonly device: string;
}

/** A workbook that is one's own or shared with one; every other one is not there. */
async function bookFor(
  { id: club }: Pick<Club, 'id'>,
  t: Pick<Write, 'selectFrom'>,
  who: Asker,
  id: string,
): Promise<BookRow> {
  const row = await t
    .selectFrom('book')
    .selectAll()
    .where('club', '=', club)
    .where('id', '=', id)
    .executeTakeFirst();
  if (row?.owner === who.id) return row;
  const shared = await t
    .selectFrom('book_member')
    .select('member')
    .where('club', '=', club)
    .where('book', '=', id)
    .where('member', '=', who.id)
    .executeTakeFirst();
  if (row === undefined || shared === undefined) throw notThere('This workbook');
  return row;
}

async function listed(club: Club, rows: readonly BookRow[]): Promise<Listed[]> {
  const { id, database } = club;
  if (rows.length === 0) return [];
  const shared = await database.read
    .selectFrom('book_member')
    .select(['book', 'member'])
    .where('club', '=', id)
    .where(
      'book',
      'in',
      rows.map((row) => row.id),
    )
    .execute();
  const person = await personsOf(club, [
    ...rows.map(({ owner }) => owner),
    ...shared.map(({ member }) => member),
  ]);
  return rows.map((row) => ({
    id: row.id,
    title: row.title,
    head: row.head,
    changed: row.changed,
    owner: person(row.owner),
    with: shared.filter(({ book }) => book === row.id).map(({ member }) => person(member)),
  }));
}

/** One's own workbooks, and those shared with one. */
export async function books(club: Club, who: Asker): Promise<AnswerOf<'books'>> {
  const { read } = club.database;
  const [own, shared] = await Promise.all([
    read
      .selectFrom('book')
      .selectAll()
      .where('club', '=', club.id)
      .where('owner', '=', who.id)
      .execute(),
    read
      .selectFrom('book')
      .innerJoin('book_member', (on) =>
        on.onRef('book_member.club', '=', 'book.club').onRef('book_member.book', '=', 'book.id'),
      )
      .selectAll('book')
      .where('book.club', '=', club.id)
      .where('book_member.member', '=', who.id)
      .execute(),
  ]);
  const rows = [...own, ...shared].sort((a, b) => b.changed - a.changed);
  return { books: await listed(club, rows) };
}

async function readState({ text, sign }: StateSent) {
  const sent = await readSent(text);
  if (sent.sign !== sign) {
    throw new Refused('unreadable', 'The workbook was damaged on its way. Send it again.');
  }
  return sent;
}

async function addStateRow(
  club: Club,
  t: Write,
  who: Asker,
  state: {
    readonly book: string;
    readonly number: number;
    readonly sign: string;
    readonly bytes: Buffer;
    readonly device: string;
    readonly changes: number;
  },
): Promise<void> {
  const { bytes, ...rest } = state;
  await t
    .insertInto('book_state')
    .values({
      club: club.id,
      ...rest,
      by: who.id,
      blob: await keepBytes(club, t, bytes),
      made: club.now(),
    })
    .execute();
  const old = await t
    .selectFrom('book_state')
    .select(['number', 'blob'])
    .where('club', '=', club.id)
    .where('book', '=', state.book)
    .where('number', '<=', state.number - MOST_STATES)
    .execute();
  if (old.length === 0) return;
  await t
    .deleteFrom('book_state')
    .where('club', '=', club.id)
    .where('book', '=', state.book)
    .where('number', '<=', state.number - MOST_STATES)
    .execute();
  await letBytesGo(
    club,
    t,
    old.map(({ blob }) => blob),
  );
}

/** Gives a workbook to the club to keep; sent again it is the same one. */
export async function keepBook(
  club: Club,
  who: Asker,
  asked: StateSent & { readonly id: string },
): Promise<{ head: number }> {
  const { bytes, sign } = await readState(asked);
  return club.database.write(async (t) => {
    const there = await t
      .selectFrom('book')
      .selectAll()
      .where('club', '=', club.id)
      .where('id', '=', asked.id)
      .executeTakeFirst();
    if (there !== undefined) {
      // Another member's workbook of that id is none of his business: he takes another id.
      const head = there.owner === who.id ? there.head : 0;
      const first =
        there.owner !== who.id
          ? undefined
          : await t
              .selectFrom('book_state')
              .select('sign')
              .where('club', '=', club.id)
              .where('book', '=', asked.id)
              .where('number', '=', there.head)
              .executeTakeFirst();
      if (first?.sign === sign) return { head };
      throw new Refused('changed', 'The club keeps a workbook of this id already.', { head });
    }
    const own = await t
      .selectFrom('book')
      .select('id')
      .where('club', '=', club.id)
      .where('owner', '=', who.id)
      .execute();
    if (own.length >= MOST_BOOKS) {
      throw new Refused('notSo', `The club keeps ${MOST_BOOKS} workbooks for each member.`);
    }
    const at = club.now();
    await t
      .insertInto('book')
      .values({
        club: club.id,
        id: asked.id,
        owner: who.id,
        title: asked.title,
        head: 1,
        made: at,
        changed: at,
      })
      .execute();
    await addStateRow(club, t, who, {
      book: asked.id,
      number: 1,
      sign,
      bytes,
      device: asked.device,
      changes: 0,
    });
    return { head: 1 };
  });
}

/** What stands now; the text only where it is not known yet. */
export async function book(
  club: Club,
  who: Asker,
  id: string,
  since: number | undefined,
): Promise<AnswerOf<'book'>> {
  const { read } = club.database;
  const row = await bookFor(club, read, who, id);
  const [told] = await listed(club, [row]);
  if (told === undefined) throw notThere('This workbook');
  if (since === row.head) return { book: told };
  const last = await read
    .selectFrom('book_state')
    .selectAll()
    .where('club', '=', club.id)
    .where('book', '=', id)
    .where('number', '=', row.head)
    .executeTakeFirst();
  // It was changed between both questions: the next look tells.
  if (last === undefined) return { book: told };
  const person = await personsOf(club, [last.by]);
  return {
    book: told,
    state: {
      text: await packedText(club, last.blob),
      sign: last.sign,
      by: person(last.by),
      device: last.device,
      at: last.made,
    },
  };
}

/** Takes a state on top of the last one, and only there. */
export async function addState(
  club: Club,
  who: Asker,
  id: string,
  asked: StateSent & { readonly parent: number; readonly changes: number },
): Promise<{ head: number }> {
  const { bytes, sign } = await readState(asked);
  return club.database.write(async (t) => {
    const row = await bookFor(club, t, who, id);
    if (row.head !== asked.parent) {
      const last = await t
        .selectFrom('book_state')
        .select(['sign', 'by'])
        .where('club', '=', club.id)
        .where('book', '=', id)
        .where('number', '=', row.head)
        .executeTakeFirst();
      // It was taken, and the answer got lost.
      if (row.head === asked.parent + 1 && last?.sign === sign && last.by === who.id) {
        return { head: row.head };
      }
      throw new Refused('changed', 'The workbook was changed elsewhere meanwhile.', {
        head: row.head,
      });
    }
    const number = row.head + 1;
    await addStateRow(club, t, who, {
      book: id,
      number,
      sign,
      bytes,
      device: asked.device,
      changes: asked.changes,
    });
    await t
      .updateTable('book')
      .set({ head: number, title: asked.title, changed: Math.max(club.now(), row.changed) })
      .where('club', '=', club.id)
      .where('id', '=', id)
      .execute();
    return { head: number };
  });
}

/** Who changed it when. */
export async function states(club: Club, who: Asker, id: string): Promise<AnswerOf<'states'>> {
  const { read } = club.database;
  await bookFor(club, read, who, id);
  const rows = await read
    .selectFrom('book_state')
    .select(['number', 'by', 'device', 'sign', 'made', 'changes'])
    .where('club', '=', club.id)
    .where('book', '=', id)
    .orderBy('number', 'desc')
    .limit(MOST_STATES)
    .execute();
  const person = await personsOf(
    club,
    rows.map(({ by }) => by),
  );
  return {
    states: rows.map(({ number, by, device, sign, made, changes }) => ({
      number,
      by: person(by),
      device,
      sign,
      at: made,
      changes,
    })),
  };
}

/** Takes a workbook out of the club: its owner does. */
export async function removeBook(club: Club, who: Asker, id: string): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    const row = await bookFor(club, t, who, id);
    if (row.owner !== who.id) {
      throw new Refused('notAllowed', 'Its owner alone takes a workbook out of the club.');
    }
    await letBookGo(club, t, id);
  });
  return DONE;
}

/** Shares a workbook with a member, who may then change it too. */
export async function share(
  club: Club,
  who: Asker,
  id: string,
  member: string,
): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    const row = await bookFor(club, t, who, id);
    if (row.owner !== who.id) {
      throw new Refused('notAllowed', 'Its owner alone shares a workbook.');
    }
    const other = await t
      .selectFrom('member')
      .select('state')
      .where('club', '=', club.id)
      .where('id', '=', member)
      .executeTakeFirst();
    if (other?.state !== 'in' || member === who.id) throw notThere('This member');
    const shared = await t
      .selectFrom('book_member')
      .select('member')
      .where('club', '=', club.id)
      .where('book', '=', id)
      .execute();
    if (shared.some((one) => one.member === member)) return;
    if (shared.length >= MOST_WITH) {
      throw new Refused('notSo', `A workbook is shared with ${MOST_WITH} members at most.`);
    }
    await t
      .insertInto('book_member')
      .values({ club: club.id, book: id, member, made: club.now() })
      .execute();
  });
  return DONE;
}

/** Ends the sharing: its owner does, or the member himself. */
export async function unshare(
  club: Club,
  who: Asker,
  id: string,
  member: string,
): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    const row = await bookFor(club, t, who, id);
    if (row.owner !== who.id && member !== who.id) throw notThere('This workbook');
    await t
      .deleteFrom('book_member')
      .where('club', '=', club.id)
      .where('book', '=', id)
      .where('member', '=', member)
      .execute();
  });
  return DONE;
}
