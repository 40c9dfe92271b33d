import { again } from '../again.ts';
import { madeTwice } from '../errors.ts';
import type { Database } from '../open.ts';
import { type Item, table } from './making.ts';
import { STEP_1 } from './step-1.ts';

/**
 * The steps that lead to today's tables, the first one first. A step that went out is never changed: what is to be
 * otherwise is a step of its own. Each of its items is one statement in a transaction of its own, which does nothing where
 * it was carried out before: a step that was broken off is taken up again from its beginning.
 */
export const STEPS: readonly (readonly Item[])[] = [STEP_1];

const STEP_TABLE = table('schema_step', { step: 'whole', at: 'whole' }, ['step']);

/**
 * Brings a database's tables to where this version of Kerfbook wants them. Several servers may do it at once.
 * @returns the number of the last step
 * @throws Error with a sentence where a later version was here before
 */
export async function migrate(
  database: Database,
  steps: readonly (readonly Item[])[] = STEPS,
): Promise<number> {
  const from = await broughtTo(database);
  if (from > steps.length) {
    throw new Error(
      `The club's database was made ready for a later version of Kerfbook (step ${from}; this one knows ${steps.length}). Start the club with that version or a later one; nothing was changed.`,
    );
  }
  for (const [place, items] of steps.entries()) {
    const step = place + 1;
    if (step <= from) continue;
    for (const item of items) await make(database, item);
    await database.write((t) =>
      t
        .insertInto('schema_step')
        .values({ step, at: Date.now() })
        .onConflict((conflict) => conflict.column('step').doNothing())
        .execute(),
    );
  }
  return steps.length;
}

/** The same as `schemaOf`, of a database that may have no tables at all yet. */
export async function broughtTo(database: Database): Promise<number> {
  await make(database, STEP_TABLE);
  return await schemaOf(database);
}

/** The number of the last step that a database's tables were brought to; 0 where there was none. */
export async function schemaOf(database: Database): Promise<number> {
  const { last } = await database.read
    .selectFrom('schema_step')
    .select(({ fn }) => fn.max('step').as('last'))
    .executeTakeFirstOrThrow();
  return last ?? 0;
}

async function make(database: Database, item: Item): Promise<void> {
  await again(() => database.write((t) => item(t.schema, database.kind).execute()), madeTwice);
}
