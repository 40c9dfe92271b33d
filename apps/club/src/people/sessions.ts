import type { Asker } from '../asker.ts';
import type { Club, Write } from '../club.ts';
import { newId } from '../database/ids.ts';
import { hashOf, newSecret } from './secrets.ts';

const DAY = 86_400_000;
/** A session that nobody used for so long has ended (ASVS 5.0, 7.3.1). */
const IDLE = 14 * DAY;
/** And after this one signs in again, used or not (7.3.2). */
const LONGEST = 90 * DAY;
/** When it was last used is written down no more often than this. */
const NOTED = 5 * 60_000;

/** Signs a member in; the secret goes into his browser and nowhere else. */
export async function startSession(
  { id: club, now }: Club,
  t: Write,
  member: string,
  agent: string,
): Promise<string> {
  const secret = newSecret();
  const made = now();
  await t
    .insertInto('session')
    .values({
      club,
      hash: hashOf(secret),
      id: newId(),
      member,
      agent: agent.slice(0, 200),
      made,
      seen: made,
      ends: made + LONGEST,
    })
    .execute();
  return secret;
}

/** Who holds this secret of a session; nothing where it has ended, or he is no longer in the club. */
export async function whoHolds(club: Club, secret: string): Promise<Asker | undefined> {
  const { id, database, now } = club;
  const at = now();
  const found = await database.read
    .selectFrom('session')
    .innerJoin('member', (join) =>
      join.onRef('member.club', '=', 'session.club').onRef('member.id', '=', 'session.member'),
    )
    .select([
      'member.id',
      'member.name',
      'member.role',
      'member.state',
      'session.id as session',
      'session.seen',
      'session.ends',
    ])
    .where('session.club', '=', id)
    .where('session.hash', '=', hashOf(secret))
    .executeTakeFirst();
  if (found === undefined || found.state !== 'in') return undefined;
  if (found.ends <= at || found.seen + IDLE <= at) return undefined;
  // A clock that was set back must not make a session look unused.
  if (Math.abs(at - found.seen) >= NOTED) {
    await database.write((t) =>
      t
        .updateTable('session')
        .set({ seen: Math.max(at, found.seen) })
        .where('club', '=', id)
        .where('hash', '=', hashOf(secret))
        .execute(),
    );
  }
  return { id: found.id, name: found.name, role: found.role, session: found.session };
}

/** Who holds this token of the command line. */
export async function whoHasToken(club: Club, token: string): Promise<Asker | undefined> {
  const { id, database, now } = club;
  const at = now();
  const found = await database.read
    .selectFrom('token')
    .innerJoin('member', (join) =>
      join.onRef('member.club', '=', 'token.club').onRef('member.id', '=', 'token.member'),
    )
    .select(['member.id', 'member.name', 'member.role', 'member.state', 'token.used', 'token.ends'])
    .where('token.club', '=', id)
    .where('token.hash', '=', hashOf(token))
    .executeTakeFirst();
  if (found === undefined || found.state !== 'in' || found.ends <= at) return undefined;
  if (found.used === null || Math.abs(at - found.used) >= NOTED) {
    await database.write((t) =>
      t
        .updateTable('token')
        .set({ used: at })
        .where('club', '=', id)
        .where('hash', '=', hashOf(token))
        .execute(),
    );
  }
  return { id: found.id, name: found.name, role: found.role };
}

/** Ends sessions of a member: all but one, where that is named. */
export async function endSessions(
  { id: club }: Pick<Club, 'id'>,
  t: Write,
  member: string,
  but?: string,
): Promise<void> {
  let query = t.deleteFrom('session').where('club', '=', club).where('member', '=', member);
  if (but !== undefined) query = query.where('id', '!=', but);
  await query.execute();
}

/** Takes out sessions and challenges that have ended. */
export async function forgetEnded({ id: club, database, now }: Club): Promise<void> {
  const at = now();
  await database.write(async (t) => {
    await t.deleteFrom('session').where('club', '=', club).where('ends', '<', at).execute();
    await t
      .deleteFrom('session')
      .where('club', '=', club)
      .where('seen', '<', at - IDLE)
      .execute();
    await t.deleteFrom('challenge').where('club', '=', club).where('ends', '<', at).execute();
  });
}
