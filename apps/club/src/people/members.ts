import type { AnswerOf } from '@kerfbook/protocol';
import { DONE } from '@kerfbook/protocol';
import type { Asker } from '../asker.ts';
import { letBookGo } from '../books/removing.ts';
import type { Club, Write } from '../club.ts';
import { newId } from '../database/ids.ts';
import { notThere, Refused } from '../refused.ts';
import { takeTemplateOff } from '../shelf/removing.ts';
import { hashPassword, isPassword, nameKey, refuseCommon } from './passwords.ts';
import { hashOf, newSecret } from './secrets.ts';
import { endSessions, startSession } from './sessions.ts';

const DAY = 86_400_000;

/** Somebody signed in: who he is, and the secret for his browser. */
export interface SignedIn {
  readonly me: AnswerOf<'join'>;
  readonly secret: string;
}

const meOf = (row: {
  readonly id: string;
  readonly name: string;
  readonly role: Asker['role'];
}) => ({
  id: row.id,
  name: row.name,
  role: row.role,
});

/** The link by which the first keeper comes in: made anew as long as nobody is in the club, and only then. */
export async function firstKeeperCode(club: Club): Promise<string | undefined> {
  const { id, database } = club;
  const code = newSecret();
  return database.write(async (t) => {
    const anyone = await t
      .selectFrom('member')
      .select('id')
      .where('club', '=', id)
      .where('state', '=', 'in')
      .limit(1)
      .executeTakeFirst();
    if (anyone !== undefined) return undefined;
    await keepersLink(club, t, code);
    return code;
  });
}

/** The code of a link that makes a new keeper, whoever is in the club: from the command line alone. */
export async function keeperCode(club: Club): Promise<string> {
  const code = newSecret();
  await club.database.write((t) => keepersLink(club, t, code));
  return code;
}

async function keepersLink({ id, now }: Club, t: Write, code: string): Promise<void> {
  // One that was printed before must not stay good beside this one.
  await t.deleteFrom('invitation').where('club', '=', id).where('made_by', 'is', null).execute();
  await t
    .insertInto('invitation')
    .values({
      club: id,
      hash: hashOf(code),
      id: newId(),
      kind: 'join',
      role: 'keeper',
      note: null,
      made_by: null,
      member: null,
      made: now(),
      ends: now() + 7 * DAY,
      used: null,
    })
    .execute();
}

/** Makes a link by which somebody new joins, or a member comes back in. */
export async function makeInvitation(
  { id: club, database, now }: Club,
  by: Asker,
  about: {
    readonly role: Asker['role'];
    readonly note?: string | undefined;
    readonly days: number;
    readonly member?: string;
  },
): Promise<AnswerOf<'invite'>> {
  const code = newSecret();
  const id = newId();
  const made = now();
  const ends = made + about.days * DAY;
  await database.write(async (t) => {
    let { role } = about;
    if (about.member !== undefined) {
      const member = await memberIn(club, t, about.member);
      role = member.role;
      // Only the newest link brings him back.
      await t
        .deleteFrom('invitation')
        .where('club', '=', club)
        .where('member', '=', about.member)
        .where('used', 'is', null)
        .execute();
    }
    await t
      .insertInto('invitation')
      .values({
        club,
        hash: hashOf(code),
        id,
        kind: about.member === undefined ? 'join' : 'recover',
        role,
        note: about.note ?? null,
        made_by: by.id,
        member: about.member ?? null,
        made,
        ends,
        used: null,
      })
      .execute();
  });
  return { id, code, ends };
}

async function memberIn(club: string, t: Write, id: string) {
  const member = await t
    .selectFrom('member')
    .selectAll()
    .where('club', '=', club)
    .where('id', '=', id)
    .executeTakeFirst();
  if (member === undefined || member.state !== 'in') throw notThere('This member');
  return member;
}

const OVER =
  'This link was used already, has run out or was taken back. Ask a keeper of the shelf for a new one.';

async function invitationOf(club: Club, t: Pick<Write, 'selectFrom'>, code: string) {
  const found = await t
    .selectFrom('invitation')
    .selectAll()
    .where('club', '=', club.id)
    .where('hash', '=', hashOf(code))
    .executeTakeFirst();
  if (found === undefined || found.used !== null || found.ends <= club.now()) {
    throw new Refused('over', OVER);
  }
  return found;
}

/** What an invitation is good for. */
export async function lookAtInvitation(
  club: Club,
  code: string,
): Promise<Omit<AnswerOf<'lookAtInvitation'>, 'club'>> {
  const { read } = club.database;
  const { kind, role, ends, member } = await invitationOf(club, read, code);
  if (member === null) return { kind, role, ends };
  const who = await read
    .selectFrom('member')
    .select(['name', 'state'])
    .where('club', '=', club.id)
    .where('id', '=', member)
    .executeTakeFirst();
  if (who?.state !== 'in') throw new Refused('over', OVER);
  return { kind, role, ends, name: who.name };
}

/** Uses an invitation; of two who use it at once, one comes in. */
export async function join(
  club: Club,
  asked: { readonly code: string; readonly name: string; readonly password?: string | undefined },
  agent: string,
): Promise<SignedIn> {
  const { id, database, now } = club;
  const name = asked.name.trim().replace(/\s+/g, ' ');
  if (asked.password === undefined) {
    throw new Refused('notSo', 'Choose a password: a passkey can be added once you are in.');
  }
  refuseCommon(asked.password, name);
  // Worked out before the transaction, which must not be held open for it; a wrong code is told first.
  await invitationOf(club, database.read, asked.code);
  const password = await hashPassword(asked.password);
  return database.write(async (t) => {
    const invitation = await invitationOf(club, t, asked.code);
    const at = now();
    await t
      .updateTable('invitation')
      .set({ used: at })
      .where('club', '=', id)
      .where('hash', '=', invitation.hash)
      .execute();
    if (invitation.member !== null) {
      const member = await memberIn(id, t, invitation.member);
      await t
        .updateTable('member')
        .set({ password })
        .where('club', '=', id)
        .where('id', '=', member.id)
        .execute();
      await endSessions(club, t, member.id);
      return { me: meOf(member), secret: await startSession(club, t, member.id, agent) };
    }
    const key = nameKey(name);
    const taken = await t
      .selectFrom('member')
      .select('id')
      .where('club', '=', id)
      .where('name_key', '=', key)
      .executeTakeFirst();
    if (taken !== undefined) {
      throw new Refused(
        'notSo',
        `Somebody called "${name}" is in the club already. Add a letter or two.`,
      );
    }
    const member = { id: newId(), name, role: invitation.role };
    await t
      .insertInto('member')
      .values({
        club: id,
        ...member,
        name_key: key,
        state: 'in',
        password,
        joined: at,
        gone: null,
      })
      .execute();
    return { me: member, secret: await startSession(club, t, member.id, agent) };
  });
}

/** Signs in with name and password: a wrong name and a wrong password are answered alike, and in the same time. */
export async function signIn(
  club: Club,
  asked: { readonly name: string; readonly password: string },
  agent: string,
): Promise<SignedIn> {
  const { id, database } = club;
  const member = await database.read
    .selectFrom('member')
    .selectAll()
    .where('club', '=', id)
    .where('name_key', '=', nameKey(asked.name))
    .where('state', '=', 'in')
    .executeTakeFirst();
  const right = await isPassword(member?.password ?? null, asked.password);
  if (member === undefined || !right) {
    throw new Refused(
      'signedOut',
      'Name and password do not go together. Type both again; a keeper of the shelf can let you back in.',
    );
  }
  return database.write(async (t) => ({
    me: meOf(member),
    secret: await startSession(club, t, member.id, agent),
  }));
}

/** Sets a password: who has one has to know it. All other sessions end. */
export async function setPassword(
  club: Club,
  who: Asker,
  asked: { readonly now?: string | undefined; readonly next: string },
): Promise<typeof DONE> {
  const { id, database } = club;
  refuseCommon(asked.next, who.name);
  const kept = await database.read
    .selectFrom('member')
    .select('password')
    .where('club', '=', id)
    .where('id', '=', who.id)
    .executeTakeFirst();
  if (kept?.password != null && !(await isPassword(kept.password, asked.now ?? ''))) {
    throw new Refused('notSo', 'That is not your password as it is now. Type it again.');
  }
  const password = await hashPassword(asked.next);
  await database.write(async (t) => {
    await t
      .updateTable('member')
      .set({ password })
      .where('club', '=', id)
      .where('id', '=', who.id)
      .execute();
    await endSessions(club, t, who.id, who.session);
  });
  return DONE;
}

/** Who is in the club. */
export async function members({ id, database }: Club): Promise<AnswerOf<'members'>> {
  const rows = await database.read
    .selectFrom('member')
    .select(['id', 'name', 'role', 'joined'])
    .where('club', '=', id)
    .where('state', '=', 'in')
    .orderBy('name_key')
    .execute();
  return { members: rows };
}

/** Invitations that still hold. */
export async function invitations({ id, database, now }: Club): Promise<AnswerOf<'invitations'>> {
  const rows = await database.read
    .selectFrom('invitation')
    .leftJoin('member', (on) =>
      on.onRef('member.club', '=', 'invitation.club').onRef('member.id', '=', 'invitation.made_by'),
    )
    .select([
      'invitation.id',
      'invitation.kind',
      'invitation.role',
      'invitation.note',
      'invitation.made',
      'invitation.ends',
      'invitation.made_by',
      'member.name as by',
    ])
    .where('invitation.club', '=', id)
    .where('invitation.used', 'is', null)
    .where('invitation.ends', '>', now())
    .orderBy('invitation.made', 'desc')
    .execute();
  return {
    invitations: rows.map(({ by, made_by, note, ...row }) => ({
      ...row,
      ...(note === null ? {} : { note }),
      by: { id: made_by ?? 'the-club', name: by ?? 'the club itself' },
    })),
  };
}

/** Takes an invitation back. */
export async function withdrawInvitation(
  { id: club, database }: Club,
  id: string,
): Promise<typeof DONE> {
  const gone = await database.write((t) =>
    t
      .deleteFrom('invitation')
      .where('club', '=', club)
      .where('id', '=', id)
      .where('used', 'is', null)
      .executeTakeFirst(),
  );
  if (Number(gone.numDeletedRows) === 0) throw notThere('This invitation');
  return DONE;
}

/** A club without a keeper could never let anyone in again. */
async function refuseLastKeeper(club: string, t: Write, but: string): Promise<void> {
  const other = await t
    .selectFrom('member')
    .select('id')
    .where('club', '=', club)
    .where('state', '=', 'in')
    .where('role', '=', 'keeper')
    .where('id', '!=', but)
    .limit(1)
    .executeTakeFirst();
  if (other === undefined) {
    throw new Refused(
      'notSo',
      'This is the last keeper of the shelf. Make somebody else a keeper first.',
    );
  }
}

/** Makes a member a keeper, or a keeper a member; of two keepers who do it to each other at once, one stays. */
export async function setRole(
  { id: club, database }: Club,
  id: string,
  role: Asker['role'],
): Promise<typeof DONE> {
  await database.write(async (t) => {
    const member = await memberIn(club, t, id);
    if (member.role === 'keeper' && role === 'member') await refuseLastKeeper(club, t, id);
    await t
      .updateTable('member')
      .set({ role })
      .where('club', '=', club)
      .where('id', '=', id)
      .execute();
  });
  return DONE;
}

/** All that lets a member in, and what is his alone, goes with him. */
async function letMemberGo(
  club: Club,
  t: Write,
  member: string,
  how: { readonly state: 'left' | 'removed'; readonly published: 'give' | 'take' },
): Promise<void> {
  const { id } = club;
  const at = club.now();
  for (const table of ['session', 'token', 'passkey'] as const) {
    await t.deleteFrom(table).where('club', '=', id).where('member', '=', member).execute();
  }
  for (const column of ['made_by', 'member'] as const) {
    await t
      .deleteFrom('invitation')
      .where('club', '=', id)
      .where(column, '=', member)
      .where('used', 'is', null)
      .execute();
  }
  const books = await t
    .selectFrom('book')
    .select('id')
    .where('club', '=', id)
    .where('owner', '=', member)
    .execute();
  for (const book of books) await letBookGo(club, t, book.id);
  await t.deleteFrom('book_member').where('club', '=', id).where('member', '=', member).execute();
  if (how.published === 'take') {
    const templates = await t
      .selectFrom('template')
      .select('id')
      .where('club', '=', id)
      .where('maker', '=', member)
      .execute();
    for (const one of templates) await takeTemplateOff(club, t, one.id);
  }
  await t
    .updateTable('member')
    .set({
      state: how.state,
      password: null,
      gone: at,
      role: 'member',
      name: 'A former member',
      name_key: `gone:${member}`,
    })
    .where('club', '=', id)
    .where('id', '=', member)
    .execute();
}

/** Leaves the club; what was published stays for the club, or goes along. */
export async function leave(
  club: Club,
  who: Asker,
  published: 'give' | 'take',
): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    const member = await memberIn(club.id, t, who.id);
    if (member.role === 'keeper') await refuseLastKeeper(club.id, t, who.id);
    await letMemberGo(club, t, who.id, { state: 'left', published });
  });
  return DONE;
}

/** Removes a member; what he published stays. */
export async function removeMember(club: Club, who: Asker, id: string): Promise<typeof DONE> {
  if (id === who.id) {
    throw new Refused('notSo', 'To go yourself, choose "Leave the club" in your account.');
  }
  await club.database.write(async (t) => {
    const member = await memberIn(club.id, t, id);
    if (member.role === 'keeper') await refuseLastKeeper(club.id, t, id);
    await letMemberGo(club, t, id, { state: 'removed', published: 'give' });
  });
  return DONE;
}

/** Gives the club another name. */
export async function renameClub({ id, database }: Club, name: string): Promise<typeof DONE> {
  await database.write((t) =>
    t.updateTable('club').set({ name: name.trim() }).where('club', '=', id).execute(),
  );
  return DONE;
}
