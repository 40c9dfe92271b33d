import { type AnswerOf, DONE } from '@kerfbook/protocol';
import {
  type AuthenticationResponseJSON,
  generateAuthenticationOptions,
  generateRegistrationOptions,
  type RegistrationResponseJSON,
  verifyAuthenticationResponse,
  verifyRegistrationResponse,
} from '@simplewebauthn/server';
import type { Asker } from '../asker.ts';
import { type Club, clubName } from '../club.ts';
import { newId } from '../database/ids.ts';
import { notThere, Refused } from '../refused.ts';
import type { SignedIn } from './members.ts';
import { startSession } from './sessions.ts';

/** How long a challenge can be answered, ms. */
const PATIENCE = 5 * 60_000;
const MOST_PASSKEYS = 20;

/** The name that passkeys are bound to, and the address of the page that may ask for them. */
export interface Site {
  /** A name, never an IP address. */
  readonly name: string;
  readonly origin: string;
}

type Transports = NonNullable<
  NonNullable<
    Parameters<typeof generateRegistrationOptions>[0]['excludeCredentials']
  >[number]['transports']
>;

const NOT_RIGHT = 'The passkey was not accepted. Try again, or sign in with your password.';

async function keepChallenge(
  { id: club, database, now }: Club,
  kind: 'add' | 'signIn',
  challenge: string,
  member: string | null,
): Promise<string> {
  const id = newId();
  await database.write((t) =>
    t
      .insertInto('challenge')
      .values({ club, id, kind, challenge, member, ends: now() + PATIENCE })
      .execute(),
  );
  return id;
}

/** Each challenge can be answered once, by whoever was asked. */
async function takeChallenge(
  { id: club, database, now }: Club,
  kind: 'add' | 'signIn',
  id: string,
  member: string | null,
): Promise<string> {
  const kept = await database.write(async (t) => {
    const row = await t
      .selectFrom('challenge')
      .selectAll()
      .where('club', '=', club)
      .where('id', '=', id)
      .executeTakeFirst();
    await t.deleteFrom('challenge').where('club', '=', club).where('id', '=', id).execute();
    return row;
  });
  if (kept === undefined || kept.kind !== kind || kept.member !== member || kept.ends <= now()) {
    throw new Refused('over', 'That took too long. Ask for the passkey once more.');
  }
  return kept.challenge;
}

const passkeysOf = ({ id, database }: Club, member: string) =>
  database.read
    .selectFrom('passkey')
    .selectAll()
    .where('club', '=', id)
    .where('member', '=', member)
    .execute();

/** What the browser needs to make a passkey for a member. */
export async function beginPasskey(
  club: Club,
  who: Asker,
  site: Site,
): Promise<AnswerOf<'beginPasskey'>> {
  const [rpName, there] = await Promise.all([clubName(club), passkeysOf(club, who.id)]);
  if (there.length >= MOST_PASSKEYS) {
    throw new Refused('notSo', `You have ${MOST_PASSKEYS} passkeys. Remove one first.`);
  }
  const options = await generateRegistrationOptions({
    rpName: rpName === '' ? 'Kerfbook' : rpName,
    rpID: site.name,
    userID: new TextEncoder().encode(`${club.id}/${who.id}`),
    userName: who.name,
    attestationType: 'none',
    excludeCredentials: there.map(({ id, transports }) => ({
      id,
      transports: JSON.parse(transports) as Transports,
    })),
    authenticatorSelection: { residentKey: 'required', userVerification: 'required' },
  });
  const challenge = await keepChallenge(club, 'add', options.challenge, who.id);
  return { challenge, options: { ...options } };
}

/** Adds the passkey that the browser made. */
export async function addPasskey(
  club: Club,
  who: Asker,
  site: Site,
  asked: {
    readonly challenge: string;
    readonly label: string;
    readonly response: Readonly<Record<string, unknown>>;
  },
): Promise<typeof DONE> {
  const expectedChallenge = await takeChallenge(club, 'add', asked.challenge, who.id);
  const verified = await verifyRegistrationResponse({
    response: asked.response as unknown as RegistrationResponseJSON,
    expectedChallenge,
    expectedOrigin: site.origin,
    expectedRPID: site.name,
    requireUserVerification: true,
  }).catch(() => undefined);
  if (verified?.verified !== true || verified.registrationInfo === undefined) {
    throw new Refused('notSo', NOT_RIGHT);
  }
  const { credential } = verified.registrationInfo;
  await club.database.write(async (t) => {
    const taken = await t
      .selectFrom('passkey')
      .select('id')
      .where('club', '=', club.id)
      .where('id', '=', credential.id)
      .executeTakeFirst();
    if (taken !== undefined) throw new Refused('notSo', 'This passkey is in use already.');
    await t
      .insertInto('passkey')
      .values({
        club: club.id,
        id: credential.id,
        member: who.id,
        public_key: Buffer.from(credential.publicKey),
        counter: credential.counter,
        transports: JSON.stringify(credential.transports ?? []),
        label: asked.label,
        made: club.now(),
        used: null,
      })
      .execute();
  });
  return DONE;
}

/** Removes a passkey, unless nothing else would let the member in. */
export async function removePasskey(club: Club, who: Asker, id: string): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    const all = await t
      .selectFrom('passkey')
      .select('id')
      .where('club', '=', club.id)
      .where('member', '=', who.id)
      .execute();
    if (all.every((one) => one.id !== id)) throw notThere('This passkey');
    const member = await t
      .selectFrom('member')
      .select('password')
      .where('club', '=', club.id)
      .where('id', '=', who.id)
      .executeTakeFirst();
    if (all.length === 1 && member?.password == null) {
      throw new Refused('notSo', 'This passkey is all that lets you in. Set a password first.');
    }
    await t
      .deleteFrom('passkey')
      .where('club', '=', club.id)
      .where('member', '=', who.id)
      .where('id', '=', id)
      .execute();
  });
  return DONE;
}

/** What the browser needs to ask for a passkey, of anybody. */
export async function beginPasskeySignIn(
  club: Club,
  site: Site,
): Promise<AnswerOf<'beginPasskeySignIn'>> {
  const options = await generateAuthenticationOptions({
    rpID: site.name,
    userVerification: 'required',
  });
  const challenge = await keepChallenge(club, 'signIn', options.challenge, null);
  return { challenge, options: { ...options } };
}

/** Signs in by a passkey. */
export async function passkeySignIn(
  club: Club,
  site: Site,
  asked: { readonly challenge: string; readonly response: Readonly<Record<string, unknown>> },
  agent: string,
): Promise<SignedIn> {
  const expectedChallenge = await takeChallenge(club, 'signIn', asked.challenge, null);
  const response = asked.response as unknown as AuthenticationResponseJSON;
  const refused = new Refused('signedOut', NOT_RIGHT);
  if (typeof response.id !== 'string') throw refused;
  const kept = await club.database.read
    .selectFrom('passkey')
    .innerJoin('member', (on) =>
      on.onRef('member.club', '=', 'passkey.club').onRef('member.id', '=', 'passkey.member'),
    )
    .selectAll('passkey')
    .select(['member.name', 'member.role', 'member.state'])
    .where('passkey.club', '=', club.id)
    .where('passkey.id', '=', response.id)
    .executeTakeFirst();
  if (kept === undefined || kept.state !== 'in') throw refused;
  const verified = await verifyAuthenticationResponse({
    response,
    expectedChallenge,
    expectedOrigin: site.origin,
    expectedRPID: site.name,
    requireUserVerification: true,
    credential: {
      id: kept.id,
      publicKey: new Uint8Array(kept.public_key),
      counter: kept.counter,
      transports: JSON.parse(kept.transports) as Transports,
    },
  }).catch(() => undefined);
  if (verified?.verified !== true) throw refused;
  const { newCounter } = verified.authenticationInfo;
  return club.database.write(async (t) => {
    await t
      .updateTable('passkey')
      .set({ counter: newCounter, used: club.now() })
      .where('club', '=', club.id)
      .where('id', '=', kept.id)
      .execute();
    return {
      me: { id: kept.member, name: kept.name, role: kept.role },
      secret: await startSession(club, t, kept.member, agent),
    };
  });
}
