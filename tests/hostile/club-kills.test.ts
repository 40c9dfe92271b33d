import { type ChildProcess, spawn } from 'node:child_process';
import { execPath } from 'node:process';
import { createInterface } from 'node:readline';
import { type Database, migrate, openDatabase, signOf, type Where } from '@kerfbook/club/database';
import {
  fillAsOf,
  postgresPrograms,
  sqlitePlace,
  startPostgres,
  withoutPostgres,
} from '@kerfbook/club/testing';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bundled } from '../scripts/bundled.mjs';
import { patience, times } from './times.ts';

/** Of one file: each child that is killed would read hundreds before it publishes. */
let publisher = '';
const [CLUB, TEMPLATE] = ['c', 'published'];
/** Each way of killing twice; with KERFBOOK_TIMES=3 there are more than 20 rounds and 1,000 revisions on each database. */
const ROUNDS = 8;
/** Revisions of a round that were said to be kept. */
const KEPT = 50;

/** Numbers and signs that were said to be kept. */
type Said = Map<number, string>;

/** Publishes until enough was said to be kept, strikes in the middle of the next, and comes back once nothing runs. */
async function round(where: Where, said: Said, strike: (child: ChildProcess) => Promise<void>) {
  const child = spawn(execPath, [publisher, JSON.stringify(where), CLUB, TEMPLATE], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let complaint = '';
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    complaint += text;
  });
  const ended = new Promise<NodeJS.Signals | null>((done) => {
    child.once('close', (_code, signal) => done(signal));
  });
  let heard = 0;
  let struck: Promise<void> | undefined;
  const lines = createInterface({ input: child.stdout as NodeJS.ReadableStream });
  lines.on('line', (line) => {
    const [number, sign] = line.split(' ');
    said.set(Number(number), sign ?? '');
    heard += 1;
    if (heard === KEPT) {
      // Anywhere within the next one or two.
      struck = new Promise((done) => setTimeout(done, Math.random() * 6)).then(() => strike(child));
    }
  });
  const signal = await ended;
  await struck;
  if (signal !== 'SIGKILL') throw new Error(`The publisher ended by itself: ${complaint}`);
  expect(complaint).toBe('');
}

/** Nothing that was said to be kept is lost, and nothing is there in part. */
async function judge(database: Database, said: Said): Promise<number> {
  const { head } = await database.read
    .selectFrom('template')
    .select('head')
    .where('id', '=', TEMPLATE)
    .executeTakeFirstOrThrow();
  const revisions = await database.read
    .selectFrom('revision')
    .leftJoin('blob', (on) =>
      on.onRef('blob.club', '=', 'revision.club').onRef('blob.sign', '=', 'revision.blob'),
    )
    .select(['revision.number', 'revision.sign', 'blob.bytes'])
    .where('revision.template', '=', TEMPLATE)
    .orderBy('revision.number')
    .execute();
  expect(revisions.map(({ number }) => number)).toEqual(
    Array.from({ length: head }, (_, place) => place + 1),
  );
  for (const { sign, bytes } of revisions) expect(signOf(bytes ?? '')).toBe(sign);
  const blobs = await database.read
    .selectFrom('blob')
    .select(({ fn }) => fn.countAll<number>().as('all'))
    .executeTakeFirstOrThrow();
  // One is of the rows that were there before.
  expect(blobs.all).toBe(head + 1);
  for (const [number, sign] of said) expect(revisions[number - 1]?.sign).toBe(sign);
  return head;
}

async function prepared(where: Where): Promise<void> {
  const database = await openDatabase(where);
  const step = await migrate(database);
  await fillAsOf(database, step);
  await database.write(async (t) => {
    const row = await t.selectFrom('template').selectAll().executeTakeFirstOrThrow();
    await t
      .insertInto('template')
      .values({ ...row, id: TEMPLATE, head: 0 })
      .execute();
  });
  await database.close();
}

/** Opens what was left as it is, and finds it whole. */
async function whole(where: Where, said: Said): Promise<number> {
  const database = await openDatabase(where);
  await migrate(database);
  const head = await judge(database, said);
  await database.close();
  return head;
}

beforeAll(async () => {
  publisher = await bundled(new URL('./club-publisher.mjs', import.meta.url));
});

const killed = async (child: ChildProcess) => {
  child.kill('SIGKILL');
};

// Both wait for their disk most of the time, and can do so side by side.
describe.concurrent('a club that is killed while it publishes', () => {
  const after: (() => Promise<void>)[] = [];
  afterAll(async () => {
    for (const remove of after) await remove();
  });

  it(
    'has lost nothing that it said it kept, and nothing is torn (SQLite)',
    async () => {
      const { where, remove } = await sqlitePlace();
      after.push(remove);
      await prepared(where);
      const said: Said = new Map();
      for (let one = 0; one < times(ROUNDS); one += 1) {
        await round(where, said, killed);
        expect(await whole(where, said)).toBeGreaterThanOrEqual(said.size);
      }
      expect(said.size).toBeGreaterThanOrEqual(times(ROUNDS) * KEPT);
    },
    patience(300_000),
  );

  // It starts and kills a server of its own; where there is none the other tests say so.
  const hasServer = !withoutPostgres() && postgresPrograms() !== undefined;
  if (hasServer) {
    it(
      'and neither where the database is killed with it (PostgreSQL)',
      async () => {
        const server = await startPostgres(true);
        after.push(server.remove);
        const where = { url: server.url };
        await prepared(where);
        const said: Said = new Map();
        /** By turns: the club alone; the server as by a power cut; one of its processes, which takes all others along. */
        const strikes = [
          killed,
          async (child: ChildProcess) => {
            await server.kill();
            await server.start();
            await killed(child);
          },
          killed,
          async (child: ChildProcess) => {
            await server.killOne();
            await killed(child);
          },
        ];
        for (let one = 0; one < times(ROUNDS); one += 1) {
          await round(where, said, strikes[one % strikes.length] ?? killed);
          expect(await whole(where, said)).toBeGreaterThanOrEqual(said.size);
        }
        expect(said.size).toBeGreaterThanOrEqual(times(ROUNDS) * KEPT);
      },
      patience(300_000),
    );
  }
});

describe('the judge of what is left', () => {
  it.each([
    [
      'a revision is missing',
      (database: Database) =>
        database.write((t) =>
          t
            .deleteFrom('revision')
            .where('number', '=', 1)
            .where('template', '=', TEMPLATE)
            .execute(),
        ),
    ],
    [
      'a head is ahead',
      (database: Database) =>
        database.write((t) =>
          t.updateTable('template').set({ head: 99 }).where('id', '=', TEMPLATE).execute(),
        ),
    ],
    [
      'bytes are others',
      (database: Database) =>
        database.write((t) =>
          t
            .updateTable('blob')
            .set({ bytes: Buffer.from('others') })
            .execute(),
        ),
    ],
    [
      'a workbook belongs to nothing',
      (database: Database) =>
        database.write((t) =>
          t
            .insertInto('blob')
            .values({ club: CLUB, sign: 'x', bytes: Buffer.from('x'), made: 1 })
            .execute(),
        ),
    ],
  ])('sees that %s', async (_what, spoil) => {
    const { where, remove } = await sqlitePlace();
    await prepared(where);
    const said: Said = new Map();
    await round(where, said, killed);
    const database = await openDatabase(where);
    await judge(database, said);
    await spoil(database);
    await expect(judge(database, said)).rejects.toThrow();
    await expect(judge(database, new Map([[100_000, 'never kept']]))).rejects.toThrow();
    await database.close();
    await remove();
  });
});
