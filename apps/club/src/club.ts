import type { Transaction } from 'kysely';
import type { Database } from './database/open.ts';
import type { Tables } from './database/tables.ts';

/** One club as a server process has it: nothing in it is remembered that another process would miss. */
export interface Club {
  /** Its id, first in every key. */
  readonly id: string;
  readonly database: Database;
  /** The clock, ms since 1970. */
  readonly now: () => number;
}

/** A transaction that writes. */
export type Write = Transaction<Tables>;

/** Makes sure that the club is there; the name holds where it is new. */
export async function ensureClub({ id, database, now }: Club, name: string): Promise<void> {
  await database.write(async (t) => {
    const there = await t
      .selectFrom('club')
      .select('name')
      .where('club', '=', id)
      .executeTakeFirst();
    if (there === undefined) {
      await t.insertInto('club').values({ club: id, name, made: now() }).execute();
    }
  });
}

/** What the club is called. */
export async function clubName({ id, database }: Club): Promise<string> {
  const row = await database.read
    .selectFrom('club')
    .select('name')
    .where('club', '=', id)
    .executeTakeFirst();
  return row?.name ?? '';
}
