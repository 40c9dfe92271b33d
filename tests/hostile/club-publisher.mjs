import { randomBytes } from 'node:crypto';
import { writeSync } from 'node:fs';
import { argv } from 'node:process';
import { setTimeout } from 'node:timers/promises';
import { DatabaseAway, openDatabase, signOf } from '@kerfbook/club/database';

/**
 * Publishes one revision after the other, until it is killed, and says of each that it is kept once it is. Handed are where
 * the database is, the club and the template.
 */
const [where = '{}', club = '', template = ''] = argv.slice(2);
const database = await openDatabase(JSON.parse(where));

for (;;) {
  const bytes = randomBytes(200 + Math.floor(Math.random() * 20_000));
  const sign = signOf(bytes);
  try {
    const number = await database.write(async (t) => {
      const at = { club, made: Date.now() };
      const { head } = await t
        .selectFrom('template')
        .select('head')
        .where('club', '=', club)
        .where('id', '=', template)
        .executeTakeFirstOrThrow();
      await t
        .insertInto('revision')
        .values({
          ...{ ...at, template, number: head + 1, by: 'm', suggested_by: null },
          ...{ note: '', changes: '[]', sign, blob: sign },
        })
        .execute();
      await t
        .updateTable('template')
        .set({ head: head + 1 })
        .where('club', '=', club)
        .where('id', '=', template)
        .execute();
      await t
        .insertInto('blob')
        .values({ ...at, sign, bytes })
        .execute();
      return head + 1;
    });
    writeSync(1, `${number} ${sign}\n`);
  } catch (error) {
    // The server was killed: whoever published does it again once it is back.
    if (!(error instanceof DatabaseAway)) throw error;
    await setTimeout(20);
  }
}
