import { createHash } from 'node:crypto';
import { Readable, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { type Kysely, sql } from 'kysely';
import type { Database } from '../database/open.ts';
import type { Tables } from '../database/tables.ts';
import { BACKUP_VERSION, type Head, KEPT, type Kept, type Tail } from './format.ts';

type Row = Record<string, unknown>;

/**
 * Writes all that the club keeps, as it stands at one moment, and ends the stream: JSON, one row a line, the same from
 * either database. Sessions, tokens, challenges and counted tries are left out; hashes of passwords are in it, so it is
 * kept as carefully as the database itself.
 */
export async function exportAll(
  database: Database,
  stream: Writable,
  now: number = Date.now(),
): Promise<void> {
  await database.snapshot((read) =>
    pipeline(Readable.from(linesOf(read, now), { highWaterMark: 1 }), stream),
  );
}

async function* linesOf(read: Kysely<Tables>, at: number): AsyncGenerator<string> {
  const hash = createHash('sha256');
  const counts: Record<string, number> = {};
  const hashed = (value: Head | { readonly table: string; readonly row: Row }): string => {
    const line = `${JSON.stringify(value)}\n`;
    hash.update(line);
    return line;
  };
  const { schema } = await read
    .selectFrom('schema_step')
    .select(({ fn }) => fn.max('step').as('schema'))
    .executeTakeFirstOrThrow();
  yield hashed({ kerfbookBackup: BACKUP_VERSION, schema: schema ?? 0, at });
  for (const table of KEPT) {
    let count = 0;
    for await (const row of rowsOf(read, table)) {
      count += 1;
      yield hashed({ table: table.name, row: written(row) });
    }
    counts[table.name] = count;
  }
  const tail: Tail = { rows: counts, sha256: hash.digest('hex') };
  yield `${JSON.stringify(tail)}\n`;
}

async function* rowsOf(
  read: Kysely<Tables>,
  { name, key, page }: Kept,
): AsyncGenerator<Readonly<Row>> {
  const columns = sql.join(key.map((column) => sql.ref(column)));
  let last: Readonly<Row> | undefined;
  do {
    const after = key.map((column) => sql.val(last?.[column]));
    const where = last === undefined ? sql`` : sql`where (${columns}) > (${sql.join(after)})`;
    const { rows } = await sql<Row>`
      select * from ${sql.table(name)} ${where} order by ${columns} limit ${page}`.execute(read);
    yield* rows;
    last = rows.length < page ? undefined : rows.at(-1);
  } while (last !== undefined);
}

/** In the order of its columns' names, bytes in base64. */
function written(row: Readonly<Row>): Row {
  return Object.fromEntries(
    Object.entries(row)
      .sort(([one], [other]) => (one < other ? -1 : 1))
      .map(([column, value]) => [
        column,
        Buffer.isBuffer(value) ? { base64: value.toString('base64') } : value,
      ]),
  );
}
