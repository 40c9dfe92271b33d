import { sql } from 'kysely';
import pg from 'pg';
import { expect, it } from 'vitest';
import { onPostgres, onSqlite } from '../testing/databases.ts';
import { DatabaseAway } from './errors.ts';
import { migrate } from './migrations/migrate.ts';
import { type Database, openDatabase } from './open.ts';

const keep = (database: Database, sign: string, size: number) =>
  database.write((t) =>
    t
      .insertInto('blob')
      .values({ club: 'c', sign, bytes: Buffer.alloc(size, 7), made: 1 })
      .execute(),
  );
const kept = async (database: Database) =>
  (await database.read.selectFrom('blob').select('sign').execute()).map(({ sign }) => sign);

// PostgreSQL on a full disk is not made here: what it says then is held in `open.test.ts`.
onSqlite('a database without room', (open) => {
  it('keeps nothing of what its disk has no room for, and goes on once there is', async () => {
    const database = await open();
    await keep(database, 'before', 10);
    const room = (pages: number) =>
      database.write((t) => sql`pragma max_page_count = ${sql.raw(String(pages))}`.execute(t));
    await room(1);
    await expect(
      database.write(async (t) => {
        await t.insertInto('club').values({ club: 'a', name: 'x', made: 1 }).execute();
        const bytes = Buffer.alloc(200_000);
        const full = t.insertInto('blob').values({ club: 'c', sign: 'x', bytes, made: 1 });
        await full.execute().catch(() => undefined);
        // SQLite may have ended the transaction itself: this must not be kept on its own.
        await t.insertInto('club').values({ club: 'b', name: 'x', made: 1 }).execute();
      }),
    ).rejects.toThrow();
    await expect(keep(database, 'x', 200_000)).rejects.toThrow(/^The disk .* full/);
    await expect(keep(database, 'x', 200_000)).rejects.toThrow(DatabaseAway);
    expect(await database.read.selectFrom('club').selectAll().execute()).toEqual([]);
    expect(await kept(database)).toEqual(['before']);
    await room(1_000_000);
    await keep(database, 'x', 200_000);
    expect(await kept(database)).toEqual(['before', 'x']);
  });
});

onPostgres('a database', (_open, place) => {
  it('whose connections are cut says so once, and answers again', async () => {
    const where = await place();
    const database = await openDatabase(where);
    await migrate(database);
    const other = new pg.Client({ connectionString: where.url as string });
    await other.connect();
    const cut = () =>
      other.query(
        "select pg_terminate_backend(pid) from pg_stat_activity where application_name = 'kerfbook-club' and query like '%kerfbook_here%'",
      );
    await expect(
      database.write(async (t) => {
        await t.insertInto('club').values({ club: 'a', name: 'x', made: 1 }).execute();
        await sql`select 1 as kerfbook_here`.execute(t);
        expect((await cut()).rowCount).toBeGreaterThan(0);
        await t.insertInto('club').values({ club: 'b', name: 'x', made: 1 }).execute();
      }),
    ).rejects.toThrow(DatabaseAway);
    // One that nobody uses at the moment.
    await sql`select 1 as kerfbook_here`.execute(database.read);
    await cut();
    await new Promise((done) => setTimeout(done, 100));
    await keep(database, 'after', 10);
    expect(await kept(database)).toEqual(['after']);
    expect(await database.read.selectFrom('club').selectAll().execute()).toEqual([]);
    await other.end();
    await database.close();
  });
});
