import { type AnswerOf, DONE } from '@kerfbook/protocol';
import type { Asker } from '../asker.ts';
import type { Club } from '../club.ts';
import { newId } from '../database/ids.ts';
import { notThere, Refused } from '../refused.ts';
import { hashOf, newSecret } from './secrets.ts';
import { endSessions } from './sessions.ts';

const DAY = 86_400_000;
/** Tokens a member may have at once. */
const MOST_TOKENS = 20;

/** All that an account has to sign in with, and where it is signed in. */
export async function account(club: Club, who: Asker): Promise<AnswerOf<'account'>> {
  const { id, database, now } = club;
  const { read } = database;
  const of = { club: id, member: who.id };
  const mine = (table: 'passkey' | 'session' | 'token') =>
    read.selectFrom(table).where('club', '=', of.club).where('member', '=', of.member);
  const [member, passkeys, sessions, tokens] = await Promise.all([
    read
      .selectFrom('member')
      .select('password')
      .where('club', '=', id)
      .where('id', '=', who.id)
      .executeTakeFirst(),
    mine('passkey').selectAll().orderBy('made').execute() as Promise<
      { id: string; label: string; made: number; used: number | null }[]
    >,
    mine('session').selectAll().orderBy('made', 'desc').execute() as unknown as Promise<
      { id: string; agent: string; made: number; seen: number; ends: number }[]
    >,
    mine('token').selectAll().orderBy('made', 'desc').execute() as unknown as Promise<
      { id: string; label: string; made: number; used: number | null; ends: number }[]
    >,
  ]);
  const usedOf = (used: number | null) => (used === null ? {} : { used });
  return {
    me: { id: who.id, name: who.name, role: who.role },
    hasPassword: member?.password != null,
    passkeys: passkeys.map((one) => ({
      id: one.id,
      label: one.label,
      made: one.made,
      ...usedOf(one.used),
    })),
    sessions: sessions
      .filter(({ ends }) => ends > now())
      .map((one) => ({
        id: one.id,
        on: one.agent,
        made: one.made,
        seen: one.seen,
        ends: one.ends,
        here: one.id === who.session,
      })),
    tokens: tokens.map((one) => ({
      id: one.id,
      label: one.label,
      made: one.made,
      ...usedOf(one.used),
      ends: one.ends,
    })),
  };
}

/** Ends one of one's own sessions. */
export async function endSession(club: Club, who: Asker, session: string): Promise<typeof DONE> {
  const gone = await club.database.write((t) =>
    t
      .deleteFrom('session')
      .where('club', '=', club.id)
      .where('member', '=', who.id)
      .where('id', '=', session)
      .executeTakeFirst(),
  );
  if (Number(gone.numDeletedRows) === 0) throw notThere('This place where you were signed in');
  return DONE;
}

/** Ends all of one's own sessions but the one that asks. */
export async function endOthers(club: Club, who: Asker): Promise<typeof DONE> {
  await club.database.write((t) => endSessions(club, t, who.id, who.session));
  return DONE;
}

/** Makes a token for the command line; it is shown once. */
export async function makeToken(
  club: Club,
  who: Asker,
  { label, days }: { readonly label: string; readonly days: number },
): Promise<AnswerOf<'makeToken'>> {
  const token = newSecret();
  const id = newId();
  const made = club.now();
  const ends = made + days * DAY;
  await club.database.write(async (t) => {
    const kept = await t
      .selectFrom('token')
      .select('id')
      .where('club', '=', club.id)
      .where('member', '=', who.id)
      .execute();
    if (kept.length >= MOST_TOKENS) {
      throw new Refused(
        'notSo',
        `You have ${MOST_TOKENS} tokens. End one that you no longer need.`,
      );
    }
    await t
      .insertInto('token')
      .values({
        club: club.id,
        hash: hashOf(token),
        id,
        member: who.id,
        label,
        made,
        used: null,
        ends,
      })
      .execute();
  });
  return { id, token, ends };
}

/** Ends one of one's own tokens. */
export async function endToken(club: Club, who: Asker, token: string): Promise<typeof DONE> {
  const gone = await club.database.write((t) =>
    t
      .deleteFrom('token')
      .where('club', '=', club.id)
      .where('member', '=', who.id)
      .where('id', '=', token)
      .executeTakeFirst(),
  );
  if (Number(gone.numDeletedRows) === 0) throw notThere('This token');
  return DONE;
}
