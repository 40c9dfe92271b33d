import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { afterAll, describe } from 'vitest';
import { migrate } from '../database/migrations/migrate.ts';
import { type Database, openDatabase, type Where } from '../database/open.ts';
import { postgresPrograms, startPostgres } from './postgres-server.ts';

/** Opens a database that nobody else has, with its tables made. It is closed and removed after the tests. */
export type OpenEmpty = () => Promise<Database>;
/** Finds a place for a database that nobody else has, with nothing in it; it may be opened more than once. */
export type EmptyPlace = () => Promise<Where>;

/** Tests that open their databases with what they are handed. */
export type DatabaseTests = (open: OpenEmpty, place: EmptyPlace) => void;

/**
 * Runs tests on both databases: SQLite in a new folder, and PostgreSQL, on the server that KERFBOOK_TEST_POSTGRES names or
 * on one that is started for these tests.
 */
export function onBoth(name: string, tests: DatabaseTests): void {
  onSqlite(name, tests);
  onPostgres(name, tests);
}

/** Runs tests on SQLite alone: of what only it can do or suffer. */
export function onSqlite(name: string, tests: DatabaseTests): void {
  onOne(`${name} (SQLite)`, sqlitePlace, tests);
}

/** Runs tests on PostgreSQL alone: of what only it can do or suffer. */
export function onPostgres(name: string, tests: DatabaseTests): void {
  if (withoutPostgres()) {
    const why = isByChoice()
      ? 'as KERFBOOK_WITHOUT_POSTGRES says'
      : 'since there is none here. "apt install postgresql" brings one, or name a server in KERFBOOK_TEST_POSTGRES';
    console.log(`${name}: left out on PostgreSQL, ${why}.`);
    return;
  }
  onOne(`${name} (PostgreSQL)`, postgresPlace, tests);
}

const isByChoice = (): boolean => process.env.KERFBOOK_WITHOUT_POSTGRES === '1';

/** Whether tests on PostgreSQL are left out: by choice, or since this machine has none and none is named. */
export function withoutPostgres(): boolean {
  const named = process.env.KERFBOOK_TEST_POSTGRES ?? '';
  return isByChoice() || (named === '' && postgresPrograms() === undefined);
}

/** A place that is given back. */
export interface Lent {
  readonly where: Where;
  /** Gives it back. */
  readonly remove: () => Promise<void>;
}

function onOne(name: string, lend: () => Promise<Lent>, tests: DatabaseTests): void {
  describe(name, () => {
    const opened: Database[] = [];
    const lent: Lent[] = [];
    const place: EmptyPlace = async () => {
      const one = await lend();
      lent.push(one);
      return one.where;
    };
    tests(async () => {
      const database = await openDatabase(await place());
      opened.push(database);
      await migrate(database);
      return database;
    }, place);
    afterAll(async () => {
      await Promise.all(opened.map((database) => database.close()));
      for (const { remove } of lent) await remove();
    });
  });
}

/** A folder of its own. */
export async function sqlitePlace(): Promise<Lent> {
  const folder = mkdtempSync(join(tmpdir(), 'kerfbook-club-'));
  return { where: { folder }, remove: async () => rmSync(folder, { recursive: true }) };
}

let places = 0;
/** A schema of its own: quicker than a database, and a user who may make no databases can do it. */
export async function postgresPlace(): Promise<Lent> {
  const server = await postgresUrl();
  places += 1;
  const schema = `kerfbook_${process.pid}_${Date.now()}_${places}`;
  await told(server, `create schema ${schema}`);
  const url = new URL(server);
  const options = url.searchParams.get('options');
  const path = `-c search_path=${schema}`;
  url.searchParams.set('options', options === null ? path : `${options} ${path}`);
  return {
    where: { url: url.href },
    remove: () => told(server, `drop schema ${schema} cascade`),
  };
}

async function told(url: string, sql: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query('set client_min_messages = warning');
    await client.query(sql);
  } finally {
    await client.end();
  }
}

let started: Promise<string> | undefined;
/**
 * The server that tests may make databases on.
 * @throws Error saying how to come by one
 */
export async function postgresUrl(): Promise<string> {
  const named = process.env.KERFBOOK_TEST_POSTGRES;
  if (named !== undefined && named !== '') return named;
  started ??= startPostgres().then(({ url }) => url);
  return await started;
}
