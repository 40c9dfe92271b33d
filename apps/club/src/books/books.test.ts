import { expect, it } from 'vitest';
import { packed, smallBook, testClub } from '../testing/club.ts';
import { onBoth } from '../testing/databases.ts';

const state = (title: string) => ({ title, ...packed(smallBook(title)) });

onBoth('workbooks that follow a member', (open) => {
  const founded = async () => testClub(await open());
  const params = { book: 'bench-of-ada' };

  it('takes a state on top of the last one, and tells who comes late what stands', async () => {
    const { member } = await founded();
    const ada = await member('Ada');
    const first = { id: 'bench-of-ada', device: 'desk', ...state('Bench') };
    expect(await ada.get('keepBook', { body: first })).toEqual({ head: 1 });
    expect(await ada.get('keepBook', { body: first })).toEqual({ head: 1 });
    const next = { parent: 1, device: 'desk', changes: 1, ...state('Bench 2') };
    expect(await ada.get('addState', { params, body: next })).toEqual({ head: 2 });
    // The answer was lost on its way.
    expect(await ada.get('addState', { params, body: next })).toEqual({ head: 2 });
    const late = { parent: 1, device: 'tablet', changes: 1, ...state('Bench 3') };
    const refused = await ada.ask('addState', { params, body: late });
    expect(refused).toMatchObject({ refused: 'changed', head: 2 });
    const now = await ada.get('book', { params, query: { since: 1 } });
    expect(now.book).toMatchObject({ head: 2, title: 'Bench 2' });
    expect(now.state).toMatchObject({ sign: next.sign, device: 'desk' });
    expect((await ada.get('book', { params, query: { since: 2 } })).state).toBeUndefined();
  });

  it('of two devices at once takes one; nothing overwrites what it has not seen', async () => {
    const { member } = await founded();
    const ada = await member('Ada');
    await ada.get('keepBook', { body: { id: 'bench-of-ada', device: 'desk', ...state('Bench') } });
    const both = await Promise.all(
      ['desk', 'tablet', 'phone'].map((device) =>
        ada.ask('addState', {
          params,
          body: { parent: 1, device, changes: 1, ...state(`From the ${device}`) },
        }),
      ),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([200, 409, 409]);
    expect((await ada.get('states', { params })).states).toHaveLength(2);
  });

  it('is for its owner and whom it is shared with, until that is taken back', async () => {
    const { member, keeper } = await founded();
    const [ada, bert] = [await member('Ada'), await member('Bert')];
    await ada.get('keepBook', { body: { id: 'bench-of-ada', device: 'desk', ...state('Bench') } });
    const see = async () => (await bert.ask('book', { params })).status;
    expect(await see()).toBe(404);
    expect((await keeper.ask('book', { params })).status).toBe(404);
    await ada.get('shareBook', { params: { ...params, member: bert.id } });
    expect(await see()).toBe(200);
    const body = { parent: 1, device: 'his', changes: 2, ...state('Changed by Bert') };
    await bert.get('addState', { params, body });
    const { state: last, book } = await ada.get('book', { params });
    expect(last?.by.name).toBe('Bert');
    expect(book.with.map(({ name }) => name)).toEqual(['Bert']);
    expect((await bert.get('books', {})).books.map(({ id }) => id)).toEqual(['bench-of-ada']);
    await ada.get('unshareBook', { params: { ...params, member: bert.id } });
    expect(await see()).toBe(404);
    expect((await bert.get('books', {})).books).toEqual([]);
  });

  it('keeps the last hundred states and no bytes of older ones', async () => {
    const { member, club, clock } = await founded();
    const ada = await member('Ada');
    await ada.get('keepBook', {
      body: { id: 'bench-of-ada', device: 'desk', ...state('Bench 1') },
    });
    for (let parent = 1; parent < 105; parent += 1) {
      clock.pass(1_000);
      const next = state(`Bench ${parent + 1}`);
      await ada.get('addState', { params, body: { parent, device: 'desk', changes: 1, ...next } });
    }
    const { states } = await ada.get('states', { params });
    expect(states).toHaveLength(100);
    expect([states[0]?.number, states.at(-1)?.number]).toEqual([105, 6]);
    const blobs = await club.database.read
      .selectFrom('blob')
      .select('sign')
      .where('club', '=', club.id)
      .execute();
    expect(blobs).toHaveLength(100);
    await ada.get('letBookGo', { params });
    expect((await ada.get('books', {})).books).toEqual([]);
  });

  it('refuses what was damaged on its way', async () => {
    const { member } = await founded();
    const ada = await member('Ada');
    const body = {
      id: 'bench-of-ada',
      device: 'desk',
      ...state('Bench'),
      sign: packed('{}').sign,
    };
    expect(await ada.ask('keepBook', { body })).toMatchObject({ refused: 'unreadable' });
  });
});
