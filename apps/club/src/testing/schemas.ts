import { sql } from 'kysely';
import type { Database } from '../database/open.ts';
import type { Tables } from '../database/tables.ts';

/**
 * What each schema looked like, one maker per step: it fills a database that was brought to that step and no further with
 * a row of every table it had, in that step's own words. A step that went out is not changed, and neither is its maker.
 */
export const ROWS_OF_STEPS: readonly (readonly (readonly [string, object])[])[] = [
  // Before the first step there was nothing.
  [],
  [
    ['club', { club: 'c', name: 'Invented club', made: 1 }],
    [
      'member',
      {
        ...{ club: 'c', id: 'm', name: 'Ada', name_key: 'ada', role: 'keeper', state: 'in' },
        ...{ password: '$argon2id$v=19$m=1,t=1,p=1$YQ$YQ', joined: 2, gone: null },
      },
    ],
    [
      'passkey',
      {
        ...{ club: 'c', id: 'p', member: 'm', public_key: Buffer.from([1, 0, 255]), counter: 3 },
        ...{ transports: '["usb"]', label: 'Key', made: 3, used: null },
      },
    ],
    [
      'session',
      {
        ...{ club: 'c', hash: 'h', id: 's', member: 'm', agent: 'A browser', made: 4, seen: 4 },
        ends: 5,
      },
    ],
    [
      'token',
      { club: 'c', hash: 'h', id: 't', member: 'm', label: 'Laptop', made: 4, used: 5, ends: 6 },
    ],
    [
      'invitation',
      {
        ...{ club: 'c', hash: 'h', id: 'i', kind: 'join', role: 'member', note: null },
        ...{ made_by: null, member: null, made: 4, ends: 5, used: null },
      },
    ],
    ['challenge', { club: 'c', id: 'ch', kind: 'add', challenge: 'abc', member: 'm', ends: 5 }],
    ['try', { club: 'c', what: 'signIn:address:x', began: 60, count: 2 }],
    ['blob', { club: 'c', sign: 'b', bytes: Buffer.from('bytes'), made: 6 }],
    [
      'image',
      {
        ...{ club: 'c', id: 'im', kind: 'photo', owner: 'm', type: 'image/webp', width: 800 },
        ...{ height: 600, blob: 'b', made: 6 },
      },
    ],
    [
      'template',
      {
        ...{ club: 'c', id: 'te', maker: 'm', title: 'Side table', licence: 'club', card: '{}' },
        ...{ kind: 'table', longest: 1219.2, picture: null, head: 1, from_template: null },
        ...{ from_revision: null, thanks: 1, built: 1, hidden: 0, made: 7, changed: 8 },
      },
    ],
    [
      'revision',
      {
        ...{ club: 'c', template: 'te', number: 1, by: 'm', suggested_by: null, note: 'First' },
        ...{ changes: '[]', sign: 's', blob: 'b', made: 7 },
      },
    ],
    ['word', { club: 'c', word: 'table', rank: 9_000_000_000_000, template: 'te' }],
    [
      'suggestion',
      {
        ...{ club: 'c', id: 'su', template: 'te', base: 1, by: 'm', note: '', changes: '[]' },
        ...{ blob: 'b', state: 'open', word: null, made: 8, answered: null },
      },
    ],
    ['thanks', { club: 'c', template: 'te', member: 'm', made: 9 }],
    [
      'remark',
      { club: 'c', id: 'r', template: 'te', by: 'm', text: 'Two\nlines', hidden: 0, made: 9 },
    ],
    [
      'built',
      {
        ...{ club: 'c', id: 'bu', template: 'te', revision: 1, by: 'm', size: '48 in' },
        ...{ changed: 'Oak', photo: 'im', hidden: 1, made: 10 },
      },
    ],
    [
      'report',
      {
        ...{ club: 'c', id: 'rp', of: 'remark', about: 'r', by: 'm', why: 'Rude', made: 10 },
        ...{ settled: 11, outcome: 'leave', settled_by: 'm' },
      },
    ],
    ['book', { club: 'c', id: 'bo', owner: 'm', title: 'Mine', head: 1, made: 11, changed: 12 }],
    ['book_member', { club: 'c', book: 'bo', member: 'm', made: 12 }],
    [
      'book_state',
      {
        ...{ club: 'c', book: 'bo', number: 1, by: 'm', device: 'Shop laptop', sign: 's' },
        ...{ blob: 'b', changes: 4, made: 12 },
      },
    ],
  ],
];

/** Puts the rows of a step's maker into a database that was brought to that step. */
export async function fillAsOf(database: Database, step: number): Promise<void> {
  const rows = ROWS_OF_STEPS[step];
  if (rows === undefined) throw new Error(`Step ${step} has no maker of its rows yet.`);
  await database.write(async (t) => {
    for (const [name, row] of rows) {
      // A table of then may not be one of today.
      await t
        .insertInto(name as keyof Tables)
        .values(row as never)
        .execute();
    }
  });
}

/** Every table of a database with its columns in order, and whether they may hold nothing. */
export async function shapeOf(database: Database): Promise<Map<string, Map<string, boolean>>> {
  const shape = new Map<string, Map<string, boolean>>();
  const { rows } = await (database.kind === 'sqlite' ? OF_SQLITE : OF_POSTGRES).execute(
    database.read,
  );
  for (const { name, column, empty } of rows) {
    shape.set(name, (shape.get(name) ?? new Map()).set(column, empty === 1));
  }
  return shape;
}

interface Shape {
  readonly name: string;
  readonly column: string;
  readonly empty: number;
}
const OF_SQLITE = sql<Shape>`
  select t.name as name, c.name as "column", 1 - c."notnull" as empty
  from sqlite_schema t, pragma_table_info(t.name) c where t.type = 'table' order by t.name, c.cid`;
const OF_POSTGRES = sql<Shape>`
  select table_name as name, column_name as "column",
    case is_nullable when 'YES' then 1 else 0 end as empty
  from information_schema.columns where table_schema = current_schema()
  order by table_name collate "C", ordinal_position`;
