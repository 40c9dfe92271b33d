import type { Tables } from '../database/tables.ts';

/** Version of a backup's lines; raised when they come to mean something else. */
export const BACKUP_VERSION = 1;

/** How a table is written into a backup: in the order of its key, page by page. */
export interface Kept {
  readonly name: keyof Tables;
  readonly key: readonly string[];
  /** Rows in memory at once: fewer where one may hold a whole workbook or photograph. */
  readonly page: number;
}

const kept = (name: keyof Tables, key: string, page = 400): Kept => ({
  name,
  key: ['club', ...key.split(' ').filter((part) => part !== '')],
  page,
});

/** What a backup holds, in the order of its lines. */
export const KEPT: readonly Kept[] = [
  kept('club', ''),
  kept('member', 'id'),
  kept('passkey', 'id'),
  kept('invitation', 'hash'),
  kept('blob', 'sign', 8),
  kept('image', 'id'),
  kept('template', 'id'),
  kept('revision', 'template number', 16),
  kept('word', 'word rank template'),
  kept('suggestion', 'id', 16),
  kept('thanks', 'template member'),
  kept('remark', 'id'),
  kept('built', 'id'),
  kept('report', 'id'),
  kept('book', 'id'),
  kept('book_member', 'book member'),
  kept('book_state', 'book number'),
];

/** What it does not hold: everyone signs in again, and tokens are made anew. Which step the tables are at stands in its head. */
export const LEFT_OUT: readonly (keyof Tables)[] = [
  'session',
  'token',
  'challenge',
  'try',
  'schema_step',
];

/** The first line of a backup. */
export interface Head {
  readonly kerfbookBackup: number;
  /** The step that its tables were brought to. */
  readonly schema: number;
  readonly at: number;
}

/** The last line: how many rows of each table came before, and SHA-256 over all bytes before it. */
export interface Tail {
  readonly rows: Readonly<Record<string, number>>;
  readonly sha256: string;
}

/** Why a backup was not restored. Nothing was changed. */
export class BackupRefused extends Error {
  override readonly name = 'BackupRefused';
}
