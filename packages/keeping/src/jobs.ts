import { type BookDocument, JOB_STATE, type JobFacts, jobIn } from '@kerfbook/workbook';
import type { BookStore } from './book-store.ts';
import type { Bookcase } from './bookcase.ts';
import { breath } from './breath.ts';
import { type ChangedKept, changeKept, type EditMaker } from './changing.ts';
import type { ApplyEdit } from './filing.ts';
import { bringUpToDate } from './reading.ts';
import type { BookHead, KeptBook } from './records.ts';

/** A workbook that is a job, with what it says of itself as one. */
export interface KeptJob {
  /** As the list of workbooks has it. */
  readonly head: BookHead;
  /** Customer, days and state. */
  readonly facts: JobFacts;
}

/** The jobs among some workbooks. */
export interface KeptJobs {
  /** In the order of the workbooks. */
  readonly jobs: readonly KeptJob[];
  /** Workbooks that could not be read: any of them may be a job. */
  readonly unread: readonly BookHead[];
}

/** Grows when other facts are kept than before. */
const MADE = 1;
const JOB = 'job:';

/** Kept beside a workbook: what it says as a job, and the moment of the change that it holds for. */
interface KeptFacts {
  readonly made: number;
  readonly updated: number;
  /** Nothing where it is no job. */
  readonly facts?: JobFacts;
}

/**
 * The jobs among these workbooks, as they stand now. What a workbook says is read from its text and its log, without
 * anything of it being worked out, and kept beside it: the next time only what was changed since is read.
 */
export async function keptJobs(bookcase: Bookcase, heads: readonly BookHead[]): Promise<KeptJobs> {
  const { store, current } = bookcase;
  const kept = await store.values(JOB).catch(() => new Map<string, unknown>());
  const jobs: KeptJob[] = [];
  const unread: BookHead[] = [];
  const read = new Map<string, unknown>();
  for (const head of heads) {
    const { id, updated } = head;
    if (id === current.id) {
      const facts = jobIn(current.book.document());
      if (facts !== undefined) jobs.push({ head: { ...head, title: current.book.title }, facts });
      continue;
    }
    const before = kept.get(JOB + id);
    let known = isFacts(before) && before.updated === updated ? before : undefined;
    if (known === undefined) {
      await breath();
      const found = await factsOf(store, id);
      if (found === undefined) {
        unread.push(head);
        continue;
      }
      known = { made: MADE, updated, ...found };
      read.set(JOB + id, known);
    }
    if (known.facts !== undefined) jobs.push({ head, facts: known.facts });
  }
  // Where there is no room for it, it is read again the next time.
  if (read.size > 0) await store.setAll(read).catch(() => undefined);
  return { jobs, unread };
}

async function factsOf(
  store: BookStore,
  id: string,
): Promise<Pick<KeptFacts, 'facts'> | undefined> {
  const kept = await store.read(id).catch(() => undefined);
  if (kept === undefined) return undefined;
  if (!mayBeJob(kept)) return {};
  const read = bringUpToDate(kept);
  if (!read.ok) return undefined;
  const facts = jobIn(read.brought.document);
  return facts === undefined ? {} : { facts };
}

/** A workbook in which the name is nowhere written is none, and need not be read whole. */
function mayBeJob({ record, log }: KeptBook): boolean {
  const hasName = (text: string): boolean => text.toLowerCase().includes(JOB_STATE);
  if (typeof record.text !== 'string') return true;
  return hasName(record.text) || log.some(({ edit }) => hasName(JSON.stringify(edit)));
}

function isFacts(value: unknown): value is KeptFacts {
  if (value === null || typeof value !== 'object') return false;
  const { made, updated } = value as { readonly [K in keyof KeptFacts]?: unknown };
  return made === MADE && typeof updated === 'number';
}

/** What a workbook holds now, the one at hand as it stands here; a sentence where it cannot be read. */
export async function jobDocument(
  bookcase: Bookcase,
  id: string,
): Promise<BookDocument | { readonly says: string }> {
  if (id === bookcase.current.id) return bookcase.current.book.document();
  const kept = await bookcase.store.read(id).catch(() => undefined);
  if (kept === undefined) return { says: 'That workbook is not on this device any more.' };
  const read = bringUpToDate(kept);
  return read.ok ? read.brought.document : { says: read.says };
}

/**
 * Changes a job from the list: through `apply` where it is the workbook at hand, so that undo and the screen follow, and
 * in its log where it is not open.
 */
export async function changeJob(
  bookcase: Bookcase,
  id: string,
  makers: readonly EditMaker[],
  apply: ApplyEdit,
): Promise<ChangedKept> {
  const { current } = bookcase;
  if (id !== current.id) return changeKept(bookcase, id, makers);
  const back = [];
  for (const make of makers) {
    const edit = make(current.book);
    if (edit === undefined) continue;
    const result = apply(edit);
    if (!result.ok) return { ok: false, says: result.says };
    back.unshift(result.inverse);
  }
  return { ok: true, title: current.book.title, back };
}
