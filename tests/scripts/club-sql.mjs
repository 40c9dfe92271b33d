import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { filesUnder } from './files.mjs';

/**
 * What SQL the club does without, so that its tables can move to a database that is spread over several machines, and both
 * of today's databases do the same.
 */

/**
 * @typedef {object} Avoided
 * @property {string} what as the table in DEVELOPERS.md names it
 * @property {string} why
 * @property {RegExp} pattern finds it in the source
 * @property {readonly string[]} like what it finds, each in a way of its own
 */

/** @type {readonly Avoided[]} */
export const AVOIDED = [
  {
    what: 'sequences, `serial`, `autoincrement`, identity columns',
    why: 'one place would have to count for all; ids are made in code (`newId`)',
    pattern:
      /\b(?:(?:small|big)?serial\d?\b(?!\w)|nextval\s*\(|create\s+sequence|auto_?increment\b|generated\s+(?:always|by\s+default)\s+as\s+identity|autoIncrement\s*\(|\.identity\s*\(|generatedAlwaysAsIdentity|generatedByDefaultAsIdentity|last_insert_rowid|\blastInsertRowid\b|\binsertId\b)/i,
    like: ['id bigserial primary key', "nextval('ids')", 'integer primary key autoincrement'],
  },
  {
    what: 'triggers, stored procedures and functions',
    why: 'what happens then stands nowhere in the code, and databases write them differently',
    pattern:
      /\bcreate\s+(?:or\s+replace\s+)?(?:constraint\s+)?(?:trigger|function|procedure)\b|\bplpgsql\b/i,
    like: ['create trigger t after insert', 'create or replace function f()'],
  },
  {
    what: 'advisory locks',
    why: 'they hold on one server alone; a transaction that is tried again does the same',
    pattern: /\bpg_(?:try_)?advisory_/i,
    like: ['select pg_advisory_lock(1)', 'pg_try_advisory_xact_lock(1)'],
  },
  {
    what: '`listen`, `notify`',
    why: 'they reach who is connected to one server alone; whoever waits asks again',
    pattern: /\bpg_notify\b|['"`]\s*(?:un)?(?:listen|notify)\s+["\w]/i,
    like: ["sql`notify shelf, 'x'`", "query('listen shelf')", "select pg_notify('a', 'b')"],
  },
  {
    what: '`select … for update` and its kin',
    why: 'SQLite has none, and spread databases lock otherwise; `write` is serializable and tries again',
    pattern:
      /\bfor\s+(?:no\s+key\s+)?update\b(?!\s+of\s+the)|\bfor\s+(?:key\s+)?share\b|\.for(?:NoKey)?Update\s*\(|\.for(?:Key)?Share\s*\(|\.skipLocked\s*\(|\bskip\s+locked\b/i,
    like: ['select 1 from t for update', ".selectFrom('t').forUpdate()", 'for update skip locked'],
  },
  {
    what: '`lock table`',
    why: 'it stops everyone; SQLite has none',
    pattern: /\block\s+table\b/i,
    like: ['lock table template'],
  },
  {
    what: 'exclusion constraints',
    why: 'they need an index of one database alone',
    pattern: /\bexclude\s+using\b/i,
    like: ['exclude using gist (during with &&)'],
  },
  {
    what: 'generated columns',
    why: 'databases write them differently; what is worked out is worked out in code',
    pattern: /\bgenerated\s+always\s+as\s*\(|\.generatedAlwaysAs\s*\(|\)\s+(?:stored|virtual)\b/i,
    like: ['total integer generated always as (a + b) stored', '.generatedAlwaysAs(sql`a`)'],
  },
  {
    what: 'foreign keys',
    why: 'rows of one table may come to lie on another machine than those of the next',
    pattern:
      /\breferences\s+["'\w]+\s*\(|\bforeign\s+key\b|\.references\s*\(|addForeignKeyConstraint/i,
    like: ['club text references club (club)', ".references('club.club')"],
  },
  {
    what: 'indexes other than plain B-trees (GIN, GiST, of expressions, of some rows)',
    why: 'a spread database has none; words to be found by are rows of their own',
    pattern:
      /\busing\s*\(?\s*['"`]?(?:gin|gist|spgist|brin|hash|fulltext)\b|\bfts\d\b|\bto_tsvector\b|\bcreate\s+virtual\s+table\b|createIndex[\s\S]{0,200}?\.(?:expression|where|using)\s*\(/i,
    like: [
      'create index i on t using gin (words)',
      ".using('gist')",
      ".createIndex('i').on('t').where('hidden', '=', 0)",
    ],
  },
  {
    what: '`offset`',
    why: 'it reads all that it leaves out, and what is added meanwhile shifts it; lists go on by key',
    pattern: /\.offset\s*\(|\boffset\s+(?:\d|\$|\?)/i,
    like: ['.limit(48).offset(96)', 'limit 48 offset 96'],
  },
  {
    what: 'temporary tables, `truncate`, materialized views',
    why: 'they belong to one connection or lock a table as a whole',
    pattern:
      /\bcreate\s+(?:temp(?:orary)?|materialized)\b|\btruncate\s+(?:table\s+)?["\w]+['"`;]|\.temporary\s*\(/i,
    like: ['create temp table t', 'create materialized view v', 'sql`truncate word`'],
  },
  {
    what: 'looking into JSON, arrays and ranges',
    why: 'each database has its own words; what is looked for has a column',
    pattern: /\bjsonb?_\w+\s*\(|->>|\bjsonb\b|\barray_agg\b|\bunnest\s*\(|\btstzrange\b/i,
    like: ["card->>'kind'", 'json_extract(card, 1)', 'unnest($1)'],
  },
  {
    what: 'the database’s own clock and chance',
    why: 'servers’ clocks differ, and SQLite and PostgreSQL say it otherwise; times and ids are made in code',
    pattern:
      /\bnow\(\)[^;{]*`|\bcurrent_timestamp\b|\bdatetime\s*\(\s*'|\bgen_random_uuid\b|\bclock_timestamp\b|\brandomblob\b/i,
    like: ['sql`now()`', 'default current_timestamp', 'gen_random_uuid()'],
  },
];

/** Source of the club's server, without its tests. @param {string} root */
export function clubSources(root) {
  return filesUnder(root, 'apps/club/src').filter(
    (file) => file.endsWith('.ts') && !/\.test\.ts$|\/testing\//.test(file),
  );
}

/**
 * Where a text has what is avoided: one sentence each. Comments may speak of it.
 * @param {string} file
 * @param {string} source
 */
export function sqlProblems(file, source) {
  const bare = source
    .replace(/\/\*[\s\S]*?\*\//g, (comment) => comment.replace(/[^\n]/g, ' '))
    .replace(/(^|\s)\/\/[^\n]*/g, '$1');
  return AVOIDED.flatMap(({ what, why, pattern }) => {
    const found = pattern.exec(bare);
    if (found === null) return [];
    const line = bare.slice(0, found.index).split('\n').length;
    return [`${file}:${line} uses ${what} (${found[0].trim()}): ${why}.`];
  });
}

/** All of it. @param {string} root */
export function clubSqlProblems(root) {
  return clubSources(root).flatMap((file) =>
    sqlProblems(file, readFileSync(join(root, file), 'utf8')),
  );
}
