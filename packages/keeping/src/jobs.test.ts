import { type JobState, jobEdit, jobStateEdit } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import type { Bookcase } from './bookcase.ts';
import { listBooks, startJob } from './filing.ts';
import { changeJob, jobDocument, keptJobs } from './jobs.ts';
import { change, openPage, saveAndOpen, TestStore } from './testing/sample.ts';

/** Changes what is at hand and keeps it, as the app does. */
const applyIn =
  (bookcase: Bookcase): Parameters<typeof changeJob>[3] =>
  (edit) => {
    const result = bookcase.current.book.apply(edit);
    if (result.ok) bookcase.record(result.edit);
    return result;
  };

async function told(bookcase: Bookcase): Promise<readonly unknown[]> {
  const { jobs } = await keptJobs(bookcase, (await listBooks(bookcase)).own);
  return jobs
    .map(({ head, facts }) => [head.title, facts.customer, facts.state])
    .toSorted((one, other) => String(one[0]).localeCompare(String(other[0])));
}

const idOf = async (bookcase: Bookcase, title: string): Promise<string> =>
  (await listBooks(bookcase)).own.find((head) => head.title === title)?.id ?? '';

const to = (state: JobState) => (book: Parameters<typeof jobStateEdit>[0]) =>
  jobStateEdit(book, state);

describe('the jobs on this device', () => {
  it('are the workbooks that have a state, read from text and log, and again only once they change', async () => {
    const store = new TestStore();
    const bookcase = await openPage(store);
    expect(await told(bookcase)).toEqual([]);
    await saveAndOpen(bookcase, 'Hall bench');
    const hall = bookcase.current.id;
    const edit = jobEdit(bookcase.current.book);
    if (edit === undefined) throw new Error('it is a job already');
    change(bookcase, edit);
    change(bookcase, { do: 'setBook', set: { customer: 'Invented', due: '2026-12-04' } });
    expect(await told(bookcase)).toEqual([['Hall bench', 'Invented', 'asked']]);
    await saveAndOpen(bookcase, 'Porch bench');
    // Not at hand any more: what was changed last lies in its log alone. A template has no customer and begins anew.
    expect(await told(bookcase)).toEqual([
      ['Hall bench', 'Invented', 'asked'],
      ['Porch bench', undefined, 'asked'],
    ]);
    expect(await store.get(`job:${hall}`)).toMatchObject({ facts: { state: 'asked' } });
    // What did not change is not read: it would not be found.
    store.unreadable.add(hall);
    expect((await told(bookcase))[0]).toEqual(['Hall bench', 'Invented', 'asked']);
    await store.relabel(hall, { updated: bookcase.now() + 1 });
    const { jobs, unread } = await keptJobs(bookcase, (await listBooks(bookcase)).own);
    expect(jobs.map(({ head }) => head.title)).toEqual(['Porch bench']);
    expect(unread.map(({ title }) => title)).toEqual(['Hall bench']);
  });

  it('are changed while they are not open, by edits that are taken back', async () => {
    const store = new TestStore();
    const bookcase = await openPage(store);
    await saveAndOpen(bookcase, 'Hall bench');
    const id = await idOf(bookcase, 'Hall bench');
    await saveAndOpen(bookcase, 'Other');
    const apply = applyIn(bookcase);
    const made = await changeJob(bookcase, id, [jobEdit], apply);
    expect(made).toMatchObject({ ok: true, title: 'Hall bench' });
    const changed = await changeJob(bookcase, id, [to('accepted')], apply);
    expect(await told(bookcase)).toEqual([['Hall bench', undefined, 'accepted']]);
    if (!changed.ok) throw new Error(changed.says);
    await changeJob(
      bookcase,
      id,
      changed.back.map((edit) => () => edit),
      apply,
    );
    expect(await told(bookcase)).toEqual([['Hall bench', undefined, 'asked']]);
    const before = store.appended.length;
    expect(await changeJob(bookcase, id, [to('asked')], apply)).toMatchObject({ ok: true });
    expect(store.appended.length).toBe(before);
    // Opened, it holds the state that was given it from the list.
    await changeJob(bookcase, id, [to('paid')], apply);
    await bookcase.open(id);
    expect(bookcase.current.book.named('job_state')?.value).toEqual({ kind: 'text', text: 'paid' });
    expect(await jobDocument(bookcase, 'nowhere')).toMatchObject({ says: expect.any(String) });
  });

  it('are changed through the open workbook where that is the one, so that undo takes it back', async () => {
    const bookcase = await openPage(new TestStore());
    await saveAndOpen(bookcase, 'Hall bench');
    const { id } = bookcase.current;
    await changeJob(bookcase, id, [jobEdit, to('quoted')], applyIn(bookcase));
    expect(await told(bookcase)).toEqual([['Hall bench', undefined, 'quoted']]);
    bookcase.current.book.undo();
    expect(await told(bookcase)).toEqual([['Hall bench', undefined, 'asked']]);
  });

  it('begin as asked for when they are started from one of the maker’s own templates', async () => {
    const bookcase = await openPage(new TestStore());
    await saveAndOpen(bookcase, 'Shop bench');
    const { id } = bookcase.current;
    await changeJob(bookcase, id, [jobEdit, to('paid')], applyIn(bookcase));
    await startJob(bookcase, id, 'Next bench');
    expect(await told(bookcase)).toEqual([
      ['Next bench', undefined, 'asked'],
      ['Shop bench', undefined, 'paid'],
    ]);
  });
});
