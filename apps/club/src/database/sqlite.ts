import { mkdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { Kysely, SqliteAdapter, SqliteIntrospector, SqliteQueryCompiler } from 'kysely';
import Libsql from 'libsql';
import { again } from './again.ts';
import { DatabaseAway, told } from './errors.ts';
import { type Came, Lines, type Wire } from './line.ts';
import { refuseNetworkFolder } from './network-folder.ts';
import type { Tables } from './tables.ts';
import { type Value, whole } from './values.ts';

type File = InstanceType<typeof Libsql>;

/** How long a statement may hold up the whole process while another process writes; `again` waits on without that, ms. */
const BUSY = 40;
/** Readers meet a lock only while a file is put right after a crash, ms. */
const BUSY_READING = 5_000;

/** Name of the file in the club's folder. */
export const SQLITE_FILE = 'club.sqlite';

/** What is read and written in one file. */
export interface Reached {
  /** Reads alone, each statement by itself. */
  readonly read: Kysely<Tables>;
  /** What transactions that change anything are begun on. */
  readonly change: Kysely<Tables>;
  /** A connection of its own that reads alone, in one transaction. */
  snapshot<T>(work: (read: Kysely<Tables>) => Promise<T>): Promise<T>;
  /** Ends all connections. */
  close(): Promise<void>;
}

class SqliteWire implements Wire {
  readonly #file: File;
  readonly #release: () => void;

  constructor(file: File, release: () => void) {
    this.#file = file;
    this.#release = release;
  }

  ask(sql: string, values: readonly Value[]): Came {
    const statement = this.#file.prepare(sql);
    if (statement.reader) {
      const rows = statement.all(values) as Record<string, unknown>[];
      for (const row of rows) readable(row);
      return { rows };
    }
    return { rows: [], changed: Number(statement.run(values).changes) };
  }

  begin({ accessMode }: { readonly accessMode?: string }): void {
    // IMMEDIATE: whoever will write waits here, where nothing has been read yet.
    this.#file.exec(accessMode === 'read only' ? 'BEGIN' : 'BEGIN IMMEDIATE');
  }

  inside(): boolean {
    return this.#file.inTransaction;
  }

  commit(): void {
    this.#file.exec('COMMIT');
  }

  rollback(): void {
    this.#file.exec('ROLLBACK');
  }

  release(): void {
    this.#release();
  }
}

/** Bytes come as bare memory and whole numbers as BigInt. */
function readable(row: Record<string, unknown>): void {
  for (const [name, value] of Object.entries(row)) {
    if (typeof value === 'bigint') row[name] = whole(value);
    else if (value instanceof ArrayBuffer) row[name] = Buffer.from(value);
  }
}

function kyselyOf(wire: () => Promise<Wire>, begins: boolean): Kysely<Tables> {
  return new Kysely<Tables>({
    dialect: {
      createAdapter: () => new SqliteAdapter(),
      createDriver: () => new Lines(wire, begins),
      createIntrospector: (db) => new SqliteIntrospector(db),
      createQueryCompiler: () => new SqliteQueryCompiler(),
    },
  });
}

/**
 * Opens the file in a folder, and makes both where they are missing. Others on the same machine may have it open too.
 * @throws Error with a sentence where the folder is on a network
 */
export async function reachSqlite(folder: string): Promise<Reached> {
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new Error(
      `The club's folder ${folder} cannot be made (${code}). Choose a folder that the club may write to.`,
      { cause: error },
    );
  }
  await refuseNetworkFolder(resolve(folder));
  const path = join(folder, SQLITE_FILE);
  // The one who writes is first: he makes the file, in the mode in which readers do not wait.
  const writer = await opened(path, ['journal_mode = WAL', 'synchronous = FULL']);
  const reader = await opened(path, ['query_only = ON'], BUSY_READING);
  let closed = false;
  const still = () => {
    if (closed) throw new DatabaseAway('The club’s database was closed. Start the club again.');
  };
  const nothing = () => undefined;
  const turns = new Turns();
  const read = kyselyOf(async () => {
    still();
    return new SqliteWire(reader, nothing);
  }, false);
  const change = kyselyOf(async () => {
    still();
    return new SqliteWire(writer, await turns.take());
  }, true);
  return {
    read,
    change,
    async snapshot(work) {
      still();
      const file = await opened(path, ['query_only = ON'], BUSY_READING);
      try {
        const one = kyselyOf(async () => new SqliteWire(file, nothing), true);
        return await one.transaction().setAccessMode('read only').execute(work);
      } finally {
        file.close();
      }
    },
    async close() {
      if (closed) return;
      closed = true;
      // Whatever is being written ends first.
      await turns.take();
      reader.close();
      writer.close();
    },
  };
}

/** A connection to a file. Its first use may meet another that is just making it, or putting it right after a crash. */
async function opened(path: string, pragmas: readonly string[], busy = BUSY): Promise<File> {
  try {
    return await again(async () => {
      const file = new Libsql(path);
      try {
        file.exec(`PRAGMA busy_timeout = ${busy}`);
        for (const pragma of pragmas) file.pragma(pragma);
        file.exec('PRAGMA foreign_keys = ON');
        file.exec('PRAGMA trusted_schema = OFF');
        file.defaultSafeIntegers(true);
        file.prepare('SELECT count(*) FROM sqlite_schema').all([]);
        return file;
      } catch (error) {
        file.close();
        throw error;
      }
    });
  } catch (error) {
    throw told(error);
  }
}

/** One after the other. */
class Turns {
  #last: Promise<void> = Promise.resolve();

  async take(): Promise<() => void> {
    const before = this.#last;
    let release = () => {};
    this.#last = new Promise((done) => {
      release = done;
    });
    await before;
    return release;
  }
}
