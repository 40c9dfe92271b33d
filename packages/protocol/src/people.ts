import { z } from 'zod';
import { Done, Id, line, Person, Time } from './common.ts';
import { route } from './route.ts';

/** A member's name: it is what he signs in with. */
export const MemberName = line(60);
/** A password: letters of any kind (ASVS 5.0, 6.2.1 and 6.2.9). */
export const Password = z.string().min(8).max(256);
/**
 * An e-mail address as pages take it in their own field ("valid e-mail address" of the HTML Standard): no spaces, no line
 * breaks, nothing that could be read as a second one.
 */
export const MailAddress = z
  .string()
  .max(254)
  .regex(
    /^[A-Za-z0-9.!#$%&'*+/=?^_`{|}~-]+@(?:[A-Za-z0-9](?:[A-Za-z0-9-]{0,61}[A-Za-z0-9])?\.)*[A-Za-z0-9](?:[A-Za-z0-9-]{0,61}[A-Za-z0-9])?$/,
    'is no e-mail address',
  );
/** What came of sending a link by e-mail; left out where none was to be sent. */
const Mailed = z.strictObject({
  /** The mail server took it. */
  sent: z.boolean(),
  /** For the keeper. */
  says: z.string(),
});
/** A secret that an invitation, a session or a token is known by. */
export const Secret = z.string().regex(/^[A-Za-z0-9_-]{22,86}$/);
/** What a passkey answers; checked by the server's library, not here. */
const PasskeyAnswer = z.record(z.string(), z.unknown());
/** What the browser is asked for a passkey with. */
const PasskeyOptions = z.record(z.string(), z.unknown());
/** Keepers run the shelf: they invite, hide what was reported, and help members back in. */
export const Role = z.enum(['member', 'keeper']);

const Me = z.strictObject({ id: Id, name: z.string(), role: Role });

/** Who is in the club, how one comes in, and how one proves who one is. */
export const PEOPLE = {
  /** What the page may know before anyone has signed in. */
  here: route('GET', '/club/here', 'anyone', {
    answer: z.strictObject({
      club: z.strictObject({ name: z.string() }),
      me: Me.optional(),
      /** This address can do passkeys: a name over HTTPS, or this machine itself. */
      passkeys: z.boolean(),
      /** What goes between page and club cannot be read on the way. */
      secure: z.boolean(),
      /** A link can be sent by e-mail: keepers are told, where whoever runs the club has set a mail server. */
      mail: z.boolean().optional(),
      /** What the app's own limits are to be. */
      mostPacked: z.int(),
    }),
    token: true,
  }),
  /** Looks at an invitation before it is used. The code stays out of addresses, which are written into logs. */
  lookAtInvitation: route('POST', '/club/invitations/look', 'anyone', {
    body: z.strictObject({ code: Secret }),
    answer: z.strictObject({
      club: z.string(),
      kind: z.enum(['join', 'recover']),
      /** Who is to come back in. */
      name: z.string().optional(),
      role: Role,
      ends: Time,
    }),
  }),
  /** Uses an invitation once: the new member is signed in. */
  join: route('POST', '/club/join', 'anyone', {
    body: z.strictObject({ code: Secret, name: MemberName, password: Password.optional() }),
    answer: Me,
  }),
  signIn: route('POST', '/club/sign-in', 'anyone', {
    body: z.strictObject({ name: MemberName, password: Password }),
    answer: Me,
  }),
  beginPasskeySignIn: route('POST', '/club/sign-in/passkey/begin', 'anyone', {
    answer: z.strictObject({ challenge: Id, options: PasskeyOptions }),
  }),
  passkeySignIn: route('POST', '/club/sign-in/passkey', 'anyone', {
    body: z.strictObject({ challenge: Id, response: PasskeyAnswer }),
    answer: Me,
  }),
  signOut: route('POST', '/club/sign-out', 'member', { answer: Done }),
  /** All that the account has to sign in with, and where it is signed in. */
  account: route('GET', '/club/account', 'member', {
    answer: z.strictObject({
      me: Me,
      hasPassword: z.boolean(),
      passkeys: z.array(
        z.strictObject({ id: Id, label: z.string(), made: Time, used: Time.optional() }),
      ),
      sessions: z.array(
        z.strictObject({
          id: Id,
          /** The browser, as it told of itself. */
          on: z.string(),
          made: Time,
          seen: Time,
          ends: Time,
          /** The one that asks. */
          here: z.boolean(),
        }),
      ),
      tokens: z.array(
        z.strictObject({
          id: Id,
          label: z.string(),
          made: Time,
          used: Time.optional(),
          ends: Time,
        }),
      ),
    }),
  }),
  beginPasskey: route('POST', '/club/passkeys/begin', 'member', {
    answer: z.strictObject({ challenge: Id, options: PasskeyOptions }),
  }),
  addPasskey: route('POST', '/club/passkeys', 'member', {
    body: z.strictObject({ challenge: Id, label: line(60), response: PasskeyAnswer }),
    answer: Done,
  }),
  removePasskey: route('DELETE', '/club/passkeys/:passkey', 'member', {
    params: z.strictObject({ passkey: z.string().regex(/^[A-Za-z0-9_-]{8,1400}$/) }),
    answer: Done,
  }),
  /** `now`: the password that holds; left out where there is none yet. Other sessions end. */
  setPassword: route('PUT', '/club/account/password', 'member', {
    body: z.strictObject({ now: Password.optional(), next: Password }),
    answer: Done,
  }),
  endSession: route('DELETE', '/club/sessions/:session', 'member', {
    params: z.strictObject({ session: Id }),
    answer: Done,
  }),
  endOtherSessions: route('POST', '/club/sessions/end-others', 'member', { answer: Done }),
  /** A token for the command line: shown once. */
  makeToken: route('POST', '/club/tokens', 'member', {
    body: z.strictObject({ label: line(60), days: z.int().min(1).max(366) }),
    answer: z.strictObject({ id: Id, token: Secret, ends: Time }),
  }),
  endToken: route('DELETE', '/club/tokens/:token', 'member', {
    params: z.strictObject({ token: Id }),
    answer: Done,
  }),
  /** `give`: what was published stays, without a name; `take`: it is removed. His own workbooks go either way. */
  leave: route('POST', '/club/leave', 'member', {
    body: z.strictObject({ published: z.enum(['give', 'take']) }),
    answer: Done,
  }),
  members: route('GET', '/club/members', 'member', {
    answer: z.strictObject({
      members: z.array(z.strictObject({ id: Id, name: z.string(), role: Role, joined: Time })),
    }),
  }),
  /** `to`: where the link is sent by e-mail; the address is not kept. */
  invite: route('POST', '/club/invitations', 'keeper', {
    body: z.strictObject({
      role: Role,
      note: line(80).optional(),
      days: z.int().min(1).max(30),
      to: MailAddress.optional(),
    }),
    answer: z.strictObject({ id: Id, code: Secret, ends: Time, mail: Mailed.optional() }),
  }),
  invitations: route('GET', '/club/invitations', 'keeper', {
    answer: z.strictObject({
      invitations: z.array(
        z.strictObject({
          id: Id,
          kind: z.enum(['join', 'recover']),
          role: Role,
          note: z.string().optional(),
          by: Person,
          made: Time,
          ends: Time,
        }),
      ),
    }),
  }),
  withdrawInvitation: route('DELETE', '/club/invitations/:invitation', 'keeper', {
    params: z.strictObject({ invitation: Id }),
    answer: Done,
  }),
  setRole: route('PUT', '/club/members/:member/role', 'keeper', {
    params: z.strictObject({ member: Id }),
    body: z.strictObject({ role: Role }),
    answer: Done,
  }),
  removeMember: route('POST', '/club/members/:member/remove', 'keeper', {
    params: z.strictObject({ member: Id }),
    answer: Done,
  }),
  /** A one-use link with which a member comes back in who has lost password and passkeys. */
  recover: route('POST', '/club/members/:member/recover', 'keeper', {
    params: z.strictObject({ member: Id }),
    body: z.strictObject({ to: MailAddress.optional() }).optional(),
    answer: z.strictObject({ id: Id, code: Secret, ends: Time, mail: Mailed.optional() }),
  }),
  renameClub: route('PUT', '/club/name', 'keeper', {
    body: z.strictObject({ name: line(80) }),
    answer: Done,
  }),
} as const;
