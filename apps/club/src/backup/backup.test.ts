import { PassThrough, Readable, Writable } from 'node:stream';
import fc from 'fast-check';
import type { KyselyPlugin } from 'kysely';
import { describe, expect, it } from 'vitest';
import { newId, signOf } from '../database/ids.ts';
import { migrate, STEPS } from '../database/migrations/migrate.ts';
import { type Database, openDatabase } from '../database/open.ts';
import { onBoth, postgresPlace, sqlitePlace, withoutPostgres } from '../testing/databases.ts';
import { fillAsOf, shapeOf } from '../testing/schemas.ts';
import { exportAll } from './export.ts';
import { BackupRefused, KEPT, LEFT_OUT } from './format.ts';
import { importAll } from './import.ts';

const EITHER = [
  ['SQLite', sqlitePlace],
  ['PostgreSQL', postgresPlace],
].slice(0, withoutPostgres() ? 1 : 2) as [string, typeof sqlitePlace][];
const AT = 1_764_000_000_000;

async function backupOf(database: Database, at = AT): Promise<string> {
  const parts: Buffer[] = [];
  const into = new Writable({
    write(chunk: Buffer, _encoding, done) {
      parts.push(chunk);
      done();
    },
  });
  await exportAll(database, into, at);
  return Buffer.concat(parts).toString('utf8');
}

const from = (text: string | Buffer, size = 70_000) => {
  const bytes = Buffer.from(text);
  const chunks: Buffer[] = [];
  for (let at = 0; at < bytes.length; at += size) chunks.push(bytes.subarray(at, at + size));
  return Readable.from(chunks);
};

/** Rows enough for several pages of every kind, and what is hard to write. */
async function fill(database: Database): Promise<void> {
  await fillAsOf(database, STEPS.length);
  await database.write(async (t) => {
    for (let one = 0; one < 30; one += 1) {
      const bytes = Buffer.from(Array.from({ length: one * 97 }, (_, at) => (at * 31 + one) % 256));
      await t
        .insertInto('blob')
        .values({ club: 'c', sign: signOf(bytes), bytes, made: one })
        .execute();
    }
    const words = Array.from({ length: 1000 }, (_, at) => ({
      ...{ club: at % 3 === 0 ? 'b' : 'c', word: `wörd ${at % 7} "\\\n\u2028🪚` },
      ...{ rank: at, template: newId() },
    }));
    await t.insertInto('word').values(words.slice(0, 500)).execute();
    await t.insertInto('word').values(words.slice(500)).execute();
  });
}

async function isEmpty(database: Database): Promise<boolean> {
  for (const name of (await shapeOf(database)).keys()) {
    if (name === 'schema_step') continue;
    const found = await database.read
      .selectFrom(name as 'club')
      .selectAll()
      .limit(1)
      .execute();
    if (found.length > 0) return false;
  }
  return true;
}

onBoth('a backup', (open, place) => {
  it('names every table: what it holds and what it leaves out', async () => {
    const tables = [...(await shapeOf(await open())).keys()];
    expect([...KEPT.map(({ name }) => name), ...LEFT_OUT].sort()).toEqual(tables.sort());
  });

  for (const [kind, lend] of EITHER) {
    it(`restored in ${kind} is the same again, byte by byte`, async () => {
      const database = await open();
      await fill(database);
      const backup = await backupOf(database);
      const { where, remove } = await lend();
      const other = await openDatabase(where);
      const restored = await importAll(other, from(backup));
      expect(restored).toMatchObject({ club: 1, blob: 31, word: 1001, template: 1, revision: 1 });
      expect(await backupOf(other)).toBe(backup);
      // What is left out is gone, and everything else is there as it was.
      for (const name of ['session', 'token', 'challenge', 'try'] as const)
        expect(await other.read.selectFrom(name).selectAll().execute()).toEqual([]);
      for (const { name } of KEPT) {
        const rows = async (one: Database) =>
          new Set(
            (await one.read.selectFrom(name).selectAll().execute()).map((row) =>
              JSON.stringify(row),
            ),
          );
        expect(await rows(other)).toEqual(await rows(database));
      }
      await other.close();
      await remove();
    });
  }

  it('says of itself what it is, and holds hashes of passwords and no sessions', async () => {
    const database = await open();
    await fillAsOf(database, STEPS.length);
    const lines = (await backupOf(database)).trimEnd().split('\n');
    expect(JSON.parse(lines[0] ?? '')).toEqual({ kerfbookBackup: 1, schema: STEPS.length, at: AT });
    expect(lines.join('\n')).toContain('$argon2id$');
    expect(lines.join('\n')).not.toMatch(/"table":"(?:session|token|challenge|try)"/);
    const tail = JSON.parse(lines.at(-1) ?? '');
    expect(tail.sha256).toBe(signOf(`${lines.slice(0, -1).join('\n')}\n`));
    expect(tail.rows).toMatchObject({ member: 1, book_state: 1 });
  });

  it('shows one moment, whatever is written while it is taken', async () => {
    const database = await open();
    await fill(database);
    const before = await backupOf(database);
    const slow: Buffer[] = [];
    let written = 0;
    await exportAll(
      database,
      new Writable({
        highWaterMark: 1,
        write(chunk: Buffer, _encoding, done) {
          slow.push(chunk);
          if (slow.length % 200 !== 0) return done();
          written += 1;
          database
            .write((t) =>
              t
                .insertInto('word')
                .values({ club: 'c', word: `zz${written}`, rank: 1, template: 'x' })
                .execute(),
            )
            .then(() => done(), done);
        },
      }),
      AT,
    );
    expect(written).toBeGreaterThan(3);
    expect(Buffer.concat(slow).toString('utf8')).toBe(before);
    expect(await backupOf(database)).not.toBe(before);
  });

  it('is restored into an empty database alone', async () => {
    const database = await open();
    await fillAsOf(database, STEPS.length);
    const backup = await backupOf(database);
    await expect(importAll(database, from(backup))).rejects.toThrow(/^The database is not empty/);
    expect(await backupOf(database)).toBe(backup);
    // Somebody who signed in is somebody too.
    const other = await open();
    await other.write((t) =>
      t.insertInto('try').values({ club: 'c', what: 'x', began: 1, count: 1 }).execute(),
    );
    await expect(importAll(other, from(backup))).rejects.toThrow(BackupRefused);
  });

  it('that was cut off or damaged anywhere is refused in a sentence, and nothing is kept', async () => {
    const database = await open();
    await fill(database);
    const backup = Buffer.from(await backupOf(database));
    const target = await openDatabase(await place());
    await migrate(target);
    const change = fc.record({
      how: fc.constantFrom('cut', 'flip', 'drop', 'twice', 'swap', 'more'),
      at: fc.double({ min: 0, max: 0.999999, noNaN: true }),
      bit: fc.nat(7),
    });
    await fc.assert(
      fc.asyncProperty(change, async ({ how, at, bit }) => {
        const bad = damage(backup, how, at, bit);
        fc.pre(!bad.equals(backup));
        const refused = await importAll(target, from(bad, 50_000)).then(
          () => undefined,
          (error: unknown) => error,
        );
        expect(refused).toBeInstanceOf(BackupRefused);
        expect((refused as Error).message).toMatch(/^[A-Z][^\n]*[^.]\.$/);
        expect(await isEmpty(target)).toBe(true);
      }),
      {
        numRuns: 60,
        seed: 20_261_129,
        examples: [
          [{ how: 'cut', at: 0, bit: 0 }],
          [{ how: 'cut', at: 0.9999, bit: 0 }],
          [{ how: 'more', at: 0, bit: 0 }],
        ],
      },
    );
    await importAll(target, from(backup));
    expect(await backupOf(target)).toBe(backup.toString('utf8'));
    await target.close();
  });

  it.each([
    ['a later form', { kerfbookBackup: 2 }, /^The backup was written by a later version/],
    ['later tables', { schema: STEPS.length + 1 }, /^The backup was written by a later version/],
    ['no step', { schema: 0 }, /damaged at line 1/],
    ['something else', { kerfbookBackup: undefined }, /^This is no backup of a club/],
  ])('with %s is refused', async (_what, changed, says) => {
    const target = await openDatabase(await place());
    const head = JSON.stringify({ kerfbookBackup: 1, schema: STEPS.length, at: 1, ...changed });
    await expect(importAll(target, from(`${head}\n{"rows":{},"sha256":""}\n`))).rejects.toThrow(
      says,
    );
    await target.close();
  });

  it('of which the file breaks says what broke', async () => {
    const target = await open();
    const head = JSON.stringify({ kerfbookBackup: 1, schema: STEPS.length, at: 1 });
    const broken = new PassThrough();
    broken.write(`${head}\n`);
    setTimeout(() => broken.destroy(Object.assign(new Error('unplugged'), { code: 'EIO' })), 50);
    await expect(importAll(target, broken)).rejects.toThrow('unplugged');
    expect(await isEmpty(target)).toBe(true);
    const full = new Writable({
      write: (_chunk, _encoding, done) =>
        done(Object.assign(new Error('full'), { code: 'ENOSPC' })),
    });
    await expect(exportAll(target, full)).rejects.toThrow('full');
    await target.ping();
  });
});

function damage(backup: Buffer, how: string, at: number, bit: number): Buffer {
  const place = Math.floor(at * backup.length);
  const lines = backup.toString('utf8').split('\n').slice(0, -1);
  const one = Math.floor(at * (lines.length - 1));
  switch (how) {
    case 'cut':
      return backup.subarray(0, place);
    case 'flip': {
      const bad = Buffer.from(backup);
      bad[place] = (bad[place] ?? 0) ^ (1 << bit);
      return bad;
    }
    case 'drop':
      lines.splice(one, 1);
      break;
    case 'twice':
      lines.splice(one, 0, lines[one] ?? '');
      break;
    case 'swap':
      lines.splice(one, 2, lines[one + 1] ?? '', lines[one] ?? '');
      break;
    default:
      lines.push('{}');
  }
  return Buffer.from(`${lines.join('\n')}\n`);
}

onBoth('a large backup', (open) => {
  it('goes through with a few rows in memory at once', async () => {
    const database = await open();
    const bytes = Buffer.alloc(1_000_000, 5);
    const blobs = Array.from({ length: 40 }, (_, one) => ({
      ...{ club: 'c', sign: `s${one}`, bytes, made: one },
    }));
    await database.write(async (t) => {
      for (const blob of blobs) await t.insertInto('blob').values(blob).execute();
    });
    let asked = 0;
    let most = 0;
    let sunk = 0;
    const counted: Database = {
      ...database,
      snapshot: (work) =>
        database.snapshot((read) => work(read.withPlugin(counting((rows) => (asked += rows))))),
    };
    const lines: Buffer[] = [];
    const sink = new Writable({
      highWaterMark: 1,
      write(chunk: Buffer, _encoding, done) {
        lines.push(chunk);
        sunk += 1;
        most = Math.max(most, asked - sunk);
        setImmediate(done);
      },
    });
    await exportAll(counted, sink, AT);
    expect(asked).toBeGreaterThan(40);
    expect(most).toBeLessThan(12);

    const target = await open();
    let sent = 0;
    let written = 0;
    let ahead = 0;
    const watched: Database = {
      ...target,
      write: (work) =>
        target.write((t) =>
          work(
            t.withPlugin(
              counting(() => {
                written += 1;
                ahead = Math.max(ahead, sent);
                sent = 0;
              }),
            ),
          ),
        ),
    };
    await importAll(
      watched,
      (async function* () {
        for (const line of lines) {
          sent += 1;
          yield line;
        }
      })(),
    );
    expect(written).toBeGreaterThan(8);
    // A megabyte each.
    expect(ahead).toBeLessThan(8);
    expect(await backupOf(target)).toBe(Buffer.concat(lines).toString('utf8'));
  });
});

/** Tells of each answer of a database how many rows it has. */
function counting(tell: (rows: number) => void): KyselyPlugin {
  return {
    transformQuery: ({ node }) => node,
    async transformResult({ result }) {
      tell(result.rows.length);
      return result;
    },
  };
}

describe('a line without an end', () => {
  it('is refused before it fills the memory', async () => {
    const { where, remove } = await sqlitePlace();
    const target = await openDatabase(where);
    let sent = 0;
    async function* endless() {
      yield Buffer.from(`${JSON.stringify({ kerfbookBackup: 1, schema: STEPS.length, at: 1 })}\n`);
      for (;;) {
        sent += 1;
        yield Buffer.alloc(1_000_000, 97);
      }
    }
    await expect(importAll(target, endless())).rejects.toThrow('damaged at line 2');
    expect(sent).toBeLessThan(70);
    await target.close();
    await remove();
  });
});
