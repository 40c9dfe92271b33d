import type { BookStore } from './book-store.ts';
import { holdBook, type Locks } from './locks.ts';
import { newBookId } from './new-id.ts';
import { type NotOpened, type Opened, openRecord } from './opening.ts';
import { KEPT } from './records.ts';
import { owing, type Start, startWith } from './starting.ts';
import { type ShippedTemplate, workingCopyId } from './templates.ts';
import { NothingToShow } from './trouble.ts';

/**
 * Whatever can be opened where neither the last workbook nor the first template can be: the maker's own,
 * newest first, then other templates, then a template anew.
 * @throws NothingToShow where no template arrived either
 */
export async function openAnything(
  failed: Map<string, NotOpened>,
  store: BookStore,
  templates: readonly ShippedTemplate[],
  locks: Locks | undefined,
  now: number,
): Promise<Start> {
  const heads = await store.list().catch(() => []);
  const own = heads
    .filter(({ deleted }) => deleted === undefined)
    .sort((a, b) => b.updated - a.updated)
    .map(({ id }) => id);
  for (const id of [...own, ...templates.map(({ key }) => workingCopyId(key))]) {
    if (failed.has(id)) continue;
    const start = await startWith(id, failed, store, templates, locks, now);
    if (start !== undefined) return start;
  }
  const opened = await templateAnew(templates, now);
  return { opened, hold: await holdBook(opened.id, locks), failed };
}

/** A template under an id of its own: its working copy is there, and cannot be opened. */
async function templateAnew(templates: readonly ShippedTemplate[], now: number): Promise<Opened> {
  for (const template of templates) {
    const text = await template.text().catch(() => undefined);
    if (text === undefined) continue;
    const { title } = template;
    const origin = { kind: 'own', from: title, job: true } as const;
    const id = newBookId();
    const record = { id, title, origin, created: now, updated: now, revision: 0, kept: KEPT, text };
    const result = await openRecord({ record, log: [] });
    if (result.ok) return owing(result.opened, { record });
  }
  throw new NothingToShow('no template arrived, and no workbook here can be opened');
}
