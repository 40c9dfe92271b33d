import { AsyncLocalStorage } from 'node:async_hooks';
import { type Kysely, sql, type Transaction } from 'kysely';
import { again } from './again.ts';
import { told } from './errors.ts';
import { reachPostgres } from './postgres.ts';
import { reachSqlite } from './sqlite.ts';
import type { Tables } from './tables.ts';

/** Where the club keeps what it keeps: one of the two. */
export interface Where {
  /** A folder on this machine, for a file of SQLite. */
  readonly folder?: string;
  /** The address of a PostgreSQL database. */
  readonly url?: string;
}

/** The club's database, whichever it is. */
export interface Database {
  readonly kind: 'sqlite' | 'postgres';
  /** For reading alone, each statement by itself; inside of `write` it sees what stood before. */
  readonly read: Kysely<Tables>;
  /**
   * Changes things in one transaction, as though nobody else were there: all of it or nothing. Where others were quicker
   * `work` is carried out again from its beginning, so it must change nothing but the database; an error that it meets
   * there it must let through.
   * @throws DatabaseBusy where others were quicker each time
   * @throws DatabaseAway where the database does not answer or its disk is full; where the connection broke at the very end
   *   nobody knows whether the change was kept
   */
  write<T>(work: (t: Transaction<Tables>) => Promise<T>): Promise<T>;
  /** Reads several things as they stood at one moment. It holds a connection: nothing else is waited for meanwhile. */
  snapshot<T>(work: (read: Kysely<Tables>) => Promise<T>): Promise<T>;
  /**
   * Whether it answers.
   * @throws DatabaseAway
   */
  ping(): Promise<void>;
  /** Ends what is connected. */
  close(): Promise<void>;
}

/**
 * Opens the club's database; `migrate` makes its tables.
 * @throws Error with a sentence where it is not one
 * @throws DatabaseAway where it does not answer
 */
export async function openDatabase({ folder, url }: Where): Promise<Database> {
  if ((folder === undefined) === (url === undefined)) {
    throw new Error(
      'Say where the club keeps its database: either a folder on this machine or the address of a PostgreSQL database.',
    );
  }
  const reached =
    url === undefined ? await reachSqlite(folder as string) : await reachPostgres(url);
  /** What runs within a `write`: another one there would wait for its own end. */
  const within = new AsyncLocalStorage<true>();
  return {
    kind: url === undefined ? 'sqlite' : 'postgres',
    read: reached.read,
    async write(work) {
      if (within.getStore() === true) {
        throw new Error('A `write` stands within another one: hand the transaction on instead.');
      }
      return await again(() =>
        reached.change
          .transaction()
          .setIsolationLevel('serializable')
          .execute((t) => within.run(true, () => work(t))),
      );
    },
    snapshot: (work) => reached.snapshot(work),
    async ping() {
      try {
        await sql`select 1`.execute(reached.read);
      } catch (error) {
        throw told(error);
      }
    },
    close: () => reached.close(),
  };
}
