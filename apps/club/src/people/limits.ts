import { createHash } from 'node:crypto';
import { sql } from 'kysely';
import type { Club } from '../club.ts';
import { Refused } from '../refused.ts';

/** How often something may be tried in a stretch of time. */
interface Limit {
  readonly most: number;
  /** The stretch, ms. */
  readonly within: number;
}

const MINUTE = 60_000;

/** Per account and per address; counted in the database, so that all processes count together. */
export const LIMITS_OF = {
  signInName: { most: 10, within: 15 * MINUTE },
  signInAddress: { most: 60, within: 15 * MINUTE },
  invitation: { most: 30, within: 15 * MINUTE },
  password: { most: 10, within: 15 * MINUTE },
  save: { most: 240, within: MINUTE },
  publish: { most: 60, within: 10 * MINUTE },
  words: { most: 60, within: 10 * MINUTE },
  mail: { most: 20, within: 60 * MINUTE },
  photo: { most: 20, within: 10 * MINUTE },
} as const satisfies Readonly<Record<string, Limit>>;

/**
 * Counts one try more.
 * @param whose the account or address; only a hash of it is kept
 * @throws Refused with how long to wait
 */
export async function countTry(
  { id: club, database, now }: Club,
  what: keyof typeof LIMITS_OF,
  whose: string,
): Promise<void> {
  const { most, within } = LIMITS_OF[what];
  const at = now();
  const began = at - (at % within);
  const key = `${what}:${createHash('sha256').update(whose).digest('base64url').slice(0, 22)}`;
  const { count } = await database.write(async (t) =>
    t
      .insertInto('try')
      .values({ club, what: key, began, count: 1 })
      .onConflict((same) =>
        same.columns(['club', 'what', 'began']).doUpdateSet({ count: sql`"try"."count" + 1` }),
      )
      .returning('count')
      .executeTakeFirstOrThrow(),
  );
  if (count <= most) return;
  const wait = Math.max(1, Math.ceil((began + within - at) / 1000));
  const minutes = Math.ceil(wait / 60);
  throw new Refused(
    'tooOften',
    `That was tried too often. Wait ${minutes === 1 ? 'a minute' : `${minutes} minutes`}, then try again.`,
    { wait },
  );
}

/** Takes out what no longer counts. */
export async function forgetTries({ id: club, database, now }: Club): Promise<void> {
  const before = now() - 60 * MINUTE;
  await database.write((t) =>
    t.deleteFrom('try').where('club', '=', club).where('began', '<', before).execute(),
  );
}
