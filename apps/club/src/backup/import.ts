import { type Kysely, sql, type Transaction } from 'kysely';
import { DatabaseAway, DatabaseBusy } from '../database/errors.ts';
import { broughtTo, migrate, STEPS } from '../database/migrations/migrate.ts';
import type { Database } from '../database/open.ts';
import type { Tables } from '../database/tables.ts';
import { BACKUP_VERSION, BackupRefused, KEPT, LEFT_OUT } from './format.ts';
import { cutOff, damaged, type Line, linesIn, noBackup } from './lines.ts';

/** Rows that are written at once: by their number, and by letters in memory. */
const MOST_ROWS = 200;
const MOST_LETTERS = 4_000_000;

/**
 * Restores a backup into an empty database, of either kind, in one transaction: all of it or nothing. The tables are made
 * as they were when it was written, then brought to where this version of Kerfbook wants them.
 * @returns how many rows of each table were restored
 * @throws BackupRefused with a sentence where the database is not empty or the backup is not whole; nothing was changed
 */
export async function importAll(
  database: Database,
  stream: AsyncIterable<Uint8Array | string>,
): Promise<Readonly<Record<string, number>>> {
  const lines = linesIn(stream);
  const schema = schemaIn((await lines.next()).value);
  if ((await broughtTo(database)) > schema) {
    throw new BackupRefused(
      'The backup was written by an earlier version of Kerfbook, and this database was made ready for today’s. Restore it into a new database that the club was not started with yet; nothing was restored.',
    );
  }
  await migrate(database, STEPS.slice(0, schema));
  let begun = false;
  const restored = await database.write(async (t) => {
    if (begun) {
      throw new BackupRefused(
        'The database was used by others while the backup was restored. Stop every server of the club, then restore it once more; nothing was restored.',
      );
    }
    await refuseFull(t);
    begun = true;
    return await rowsInto(t, lines);
  });
  await migrate(database);
  return restored;
}

function schemaIn(head: Line | undefined): number {
  if (head === undefined) throw noBackup();
  const { kerfbookBackup, schema } = head.value;
  if (typeof kerfbookBackup !== 'number' || typeof schema !== 'number') throw noBackup();
  if (kerfbookBackup > BACKUP_VERSION || schema > STEPS.length) {
    throw new BackupRefused(
      'The backup was written by a later version of Kerfbook. Restore it with that version or a later one; nothing was restored.',
    );
  }
  if (kerfbookBackup !== BACKUP_VERSION || !Number.isInteger(schema) || schema < 1) {
    throw damaged(1);
  }
  return schema;
}

async function refuseFull(t: Kysely<Tables>): Promise<void> {
  const names = [...KEPT.map(({ name }) => name), ...LEFT_OUT];
  for (const name of names.filter((one) => one !== 'schema_step')) {
    const { rows } = await sql`select 1 from ${sql.table(name)} limit 1`.execute(t);
    if (rows.length > 0) {
      throw new BackupRefused(
        'The database is not empty, and a backup is restored into an empty one alone, so that nothing is overwritten. Choose a new folder or a new database; nothing was restored.',
      );
    }
  }
}

async function rowsInto(
  t: Transaction<Tables>,
  lines: AsyncGenerator<Line>,
): Promise<Record<string, number>> {
  const counts: Record<string, number> = Object.fromEntries(KEPT.map(({ name }) => [name, 0]));
  const pile = new Pile(t);
  let ended = false;
  let at = 1;
  try {
    for await (const line of lines) {
      at = line.number;
      if (ended) throw damaged(at);
      if ('sha256' in line.value) {
        checkTail(line, counts);
        ended = true;
        continue;
      }
      const { table, row } = line.value;
      if (typeof table !== 'string' || !Object.hasOwn(counts, table)) throw damaged(at);
      counts[table] = (counts[table] ?? 0) + 1;
      await pile.add(table as keyof Tables, read(row, at));
    }
    if (!ended) throw cutOff();
    await pile.write();
  } catch (error) {
    const itself = [BackupRefused, DatabaseAway, DatabaseBusy];
    if (itself.some((kind) => error instanceof kind) || isSystem(error)) throw error;
    // A row that the database does not take is none that was written.
    throw damaged(at, error);
  }
  return counts;
}

/** The file itself could not be read, or others were quicker: not the backup's fault. */
function isSystem(error: unknown): boolean {
  const { code } = error as { readonly code?: unknown };
  return typeof code === 'string' && /^(?:E[A-Z]+|ERR_.*|40001|40P01)$/.test(code);
}

function checkTail({ value, before, number }: Line, counts: Record<string, number>): void {
  const rows = value.rows as Record<string, unknown> | null;
  const counted =
    typeof rows === 'object' &&
    rows !== null &&
    Object.entries(counts).every(([name, count]) => rows[name] === count);
  if (!counted || value.sha256 !== before) throw damaged(number);
}

/** A row as it was: bytes out of base64. */
function read(row: unknown, number: number): Record<string, unknown> {
  if (typeof row !== 'object' || row === null || Array.isArray(row)) throw damaged(number);
  return Object.fromEntries(
    Object.entries(row).map(([column, value]: [string, unknown]) => {
      if (typeof value !== 'object' || value === null) return [column, value];
      const { base64 } = value as { readonly base64?: unknown };
      if (typeof base64 !== 'string') throw damaged(number);
      return [column, Buffer.from(base64, 'base64')];
    }),
  );
}

/** Rows of one table that are written together. */
class Pile {
  readonly #t: Transaction<Tables>;
  #table: keyof Tables | undefined;
  #rows: Record<string, unknown>[] = [];
  #letters = 0;

  constructor(t: Transaction<Tables>) {
    this.#t = t;
  }

  async add(table: keyof Tables, row: Record<string, unknown>): Promise<void> {
    if (table !== this.#table) await this.write();
    this.#table = table;
    this.#rows.push(row);
    for (const value of Object.values(row))
      this.#letters += typeof value === 'string' || Buffer.isBuffer(value) ? value.length : 8;
    if (this.#rows.length >= MOST_ROWS || this.#letters >= MOST_LETTERS) await this.write();
  }

  async write(): Promise<void> {
    const [table, rows] = [this.#table, this.#rows];
    this.#rows = [];
    this.#letters = 0;
    if (table === undefined || rows.length === 0) return;
    await this.#t
      .insertInto(table)
      .values(rows as never)
      .execute();
  }
}
