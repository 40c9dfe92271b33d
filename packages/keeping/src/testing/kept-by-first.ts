import { readFileSync } from 'node:fs';
import type { BookRecord, LogEntry } from '../records.ts';
import type { TestStore } from './sample.ts';

/** All that a browser kept of the first app, written by that app: nothing in it bears a version. */
export interface KeptStore {
  readonly books: readonly BookRecord[];
  readonly log: readonly LogEntry[];
  readonly values: readonly (readonly [string, unknown])[];
}

/** Read anew each time, so that no test sees what another did to it. */
export function keptByFirst(): KeptStore {
  const file = new URL('kept-by-first.json', import.meta.url);
  return JSON.parse(readFileSync(file, 'utf8')) as KeptStore;
}

/** Lays it into a store as it was, past all that the app of today would do to it. */
export async function fillFirst(store: TestStore, kept: KeptStore = keptByFirst()): Promise<void> {
  for (const record of kept.books) await store.put(record);
  await store.append(kept.log);
  await store.setAll(new Map(kept.values));
}

/** All of a store, as {@link keptByFirst} gives it. */
export async function allOf(store: TestStore, ids: readonly string[]): Promise<KeptStore> {
  const books: BookRecord[] = [];
  const log: LogEntry[] = [];
  for (const id of ids) {
    const kept = await store.read(id);
    if (kept === undefined) continue;
    books.push(kept.record);
    log.push(...kept.log);
  }
  const keys = await store.keys('');
  const values = await Promise.all(keys.map(async (key) => [key, await store.get(key)] as const));
  return { books, log, values };
}
