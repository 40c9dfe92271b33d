import { describe, expect, it } from 'vitest';
import { addAllBooks, allBooksCopy, allBooksIn } from './all-books.ts';
import { deleteBook, importFile, listBooks } from './filing.ts';
import { change, lengthEdit, openPage, saveAndOpen, shows, TestStore } from './testing/sample.ts';

const fileOf = (name: string, text: string) => ({
  name,
  size: text.length,
  text: async () => text,
});

describe('all workbooks as one file', () => {
  it('are brought in elsewhere, each once, and what is there stays', async () => {
    const old = await openPage(new TestStore());
    change(old, lengthEdit('45'));
    await saveAndOpen(old, 'Hall bench');
    change(old, lengthEdit('52'));
    await saveAndOpen(old, 'Gone bench');
    await deleteBook(old, old.current.id);
    const { fileName, text, says } = await allBooksCopy(old);
    expect([fileName, says]).toEqual(['all-my-workbooks.kerfbook.json', undefined]);

    const here = await openPage(new TestStore());
    await saveAndOpen(here, 'Of here');
    const { id } = here.current;
    expect(await importFile(here, fileOf('all.json', text))).toEqual({ ok: true });
    const titles = async () => (await listBooks(here)).own.map(({ title }) => title).sort();
    expect(await titles()).toEqual(['Bench', 'Hall bench', 'Of here']);
    expect(here.current.id).toBe(id);
    expect(here.state.value.notices.at(-1)?.says).toBe('2 workbooks were brought in.');

    const hall = (await listBooks(here)).own.find(({ title }) => title === 'Hall bench');
    await here.open(hall?.id ?? '');
    expect(shows(here, 'bench_length')).toBe('52');
    change(here, lengthEdit('60'));
    await here.fold();
    // The changed copy of a template has no id of its own, and comes once more.
    await importFile(here, fileOf('all.json', text));
    expect(here.state.value.notices.at(-1)?.says).toBe(
      '1 workbook was brought in. 1 was here already.',
    );
    expect(shows(here, 'bench_length')).toBe('60');
  });

  it('leaves out what it cannot read, and says so', async () => {
    const here = await openPage(new TestStore());
    const text = '{"kerfbook-workbooks":1,"books":[{"id":"x","book":{"kerfbook":8}}, 5]}';
    expect(await addAllBooks(here, 'all.json', allBooksIn(text) ?? [])).toEqual({ ok: true });
    const says = here.state.value.notices.at(-1)?.says ?? '';
    expect(says).toMatch(/^0 workbooks were brought in\. Workbook 1 of all\.json: /);
    expect(says).toMatch(/Workbook 2 of all\.json: /);
    expect((await listBooks(here)).own).toEqual([]);
  });
});
