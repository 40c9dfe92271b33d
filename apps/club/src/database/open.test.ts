import { expect, it } from 'vitest';
import { onBoth } from '../testing/databases.ts';

onBoth('a database', (open) => {
  it('answers', async () => {
    const database = await open();
    await database.ping();
    await database.write((t) =>
      t.insertInto('club').values({ club: 'c', name: 'Invented', made: 5 }).execute(),
    );
    expect(await database.read.selectFrom('club').selectAll().execute()).toEqual([
      { club: 'c', name: 'Invented', made: 5 },
    ]);
  });
});
