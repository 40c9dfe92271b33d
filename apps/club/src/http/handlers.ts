import { DONE, MOST_PACKED, type RouteName } from '@kerfbook/protocol';
import * as books from '../books/books.ts';
import { clubName } from '../club.ts';
import { schemaOf } from '../database/migrations/migrate.ts';
import { linkMailed, type MailedLink } from '../mail/links.ts';
import * as accounts from '../people/account.ts';
import { countTry, type LIMITS_OF } from '../people/limits.ts';
import * as people from '../people/members.ts';
import * as passkeys from '../people/passkeys.ts';
import { nameKey } from '../people/passwords.ts';
import { Refused } from '../refused.ts';
import * as browsing from '../shelf/browsing.ts';
import * as publishing from '../shelf/publishing.ts';
import * as reporting from '../shelf/reporting.ts';
import * as suggesting from '../shelf/suggesting.ts';
import * as telling from '../shelf/telling.ts';
import { type Ask, type Handler, memberOf, siteOf } from './asked.ts';

/** Counts a try of whoever is signed in. */
async function often<N extends RouteName>(ask: Ask<N>, what: keyof typeof LIMITS_OF) {
  const who = memberOf(ask);
  await countTry(ask.club, what, who.id);
  return who;
}

/**
 * Makes a link, and sends it where a keeper said: the link is made and kept before, and is answered however that ends.
 */
async function madeAndMailed<N extends 'invite' | 'recover', T extends Omit<MailedLink, 'kind'>>(
  ask: Ask<N>,
  kind: MailedLink['kind'],
  to: string | undefined,
  make: () => Promise<T>,
) {
  if (to === undefined) return make();
  const { mailer, club, reached, note } = ask;
  if (mailer === undefined) {
    throw new Refused(
      'notSo',
      'This club has no mail server. Leave the address out, and hand the link over yourself.',
    );
  }
  const by = await often(ask, 'mail');
  const made = await make();
  const letter = { to, club: await clubName(club), by: by.name, reached };
  return { ...made, mail: await linkMailed(mailer, { ...made, kind }, letter, note) };
}

/** What each route does; every route of the protocol has its line. */
export const HANDLERS: { readonly [N in RouteName]: Handler<N> } = {
  here: async ({ club, asker, site, secure, mailer }) => ({
    club: { name: await clubName(club) },
    ...(asker === undefined ? {} : { me: { id: asker.id, name: asker.name, role: asker.role } }),
    ...(asker?.role === 'keeper' && mailer !== undefined ? { mail: true } : {}),
    passkeys: site !== undefined,
    secure,
    mostPacked: MOST_PACKED,
  }),

  lookAtInvitation: async ({ club, body, address }) => {
    await countTry(club, 'invitation', address);
    return { club: await clubName(club), ...(await people.lookAtInvitation(club, body.code)) };
  },
  join: async ({ club, body, address, agent, keepSession }) => {
    await countTry(club, 'invitation', address);
    const { me, secret } = await people.join(club, body, agent);
    keepSession(secret);
    return me;
  },
  signIn: async ({ club, body, address, agent, keepSession }) => {
    await countTry(club, 'signInAddress', address);
    await countTry(club, 'signInName', nameKey(body.name));
    const { me, secret } = await people.signIn(club, body, agent);
    keepSession(secret);
    return me;
  },
  beginPasskeySignIn: async (ask) => {
    await countTry(ask.club, 'signInAddress', ask.address);
    return passkeys.beginPasskeySignIn(ask.club, siteOf(ask));
  },
  passkeySignIn: async (ask) => {
    const { me, secret } = await passkeys.passkeySignIn(ask.club, siteOf(ask), ask.body, ask.agent);
    ask.keepSession(secret);
    return me;
  },
  signOut: async (ask) => {
    const who = memberOf(ask);
    if (who.session !== undefined) await accounts.endSession(ask.club, who, who.session);
    ask.keepSession(undefined);
    return DONE;
  },
  account: (ask) => accounts.account(ask.club, memberOf(ask)),
  beginPasskey: (ask) => passkeys.beginPasskey(ask.club, memberOf(ask), siteOf(ask)),
  addPasskey: (ask) => passkeys.addPasskey(ask.club, memberOf(ask), siteOf(ask), ask.body),
  removePasskey: (ask) => passkeys.removePasskey(ask.club, memberOf(ask), ask.params.passkey),
  setPassword: async (ask) => {
    const who = await often(ask, 'password');
    return people.setPassword(ask.club, who, ask.body);
  },
  endSession: (ask) => accounts.endSession(ask.club, memberOf(ask), ask.params.session),
  endOtherSessions: (ask) => accounts.endOthers(ask.club, memberOf(ask)),
  makeToken: (ask) => accounts.makeToken(ask.club, memberOf(ask), ask.body),
  endToken: (ask) => accounts.endToken(ask.club, memberOf(ask), ask.params.token),
  leave: async (ask) => {
    const done = await people.leave(ask.club, memberOf(ask), ask.body.published);
    ask.keepSession(undefined);
    return done;
  },
  members: ({ club }) => people.members(club),
  invite: (ask) => {
    const { to, ...about } = ask.body;
    const kind = about.role === 'keeper' ? 'keeper' : 'member';
    return madeAndMailed(ask, kind, to, () =>
      people.makeInvitation(ask.club, memberOf(ask), about),
    );
  },
  invitations: ({ club }) => people.invitations(club),
  withdrawInvitation: ({ club, params }) => people.withdrawInvitation(club, params.invitation),
  setRole: ({ club, params, body }) => people.setRole(club, params.member, body.role),
  removeMember: (ask) => people.removeMember(ask.club, memberOf(ask), ask.params.member),
  recover: (ask) =>
    madeAndMailed(ask, 'back', ask.body?.to, () =>
      people.makeInvitation(ask.club, memberOf(ask), {
        role: 'member',
        days: 2,
        member: ask.params.member,
      }),
    ),
  renameClub: ({ club, body }) => people.renameClub(club, body.name),

  browse: ({ club, query }) => browsing.browse(club, query),
  facets: ({ club }) => browsing.facets(club),
  template: (ask) => browsing.template(ask.club, memberOf(ask), ask.params.template),
  revision: (ask) =>
    browsing.revision(ask.club, memberOf(ask), ask.params.template, ask.params.number),
  publish: async (ask) => publishing.publish(ask.club, await often(ask, 'publish'), ask.body),
  publishRevision: async (ask) => {
    const who = await often(ask, 'publish');
    return publishing.publishRevision(ask.club, who, ask.params.template, ask.body);
  },
  setLicence: (ask) =>
    publishing.setLicence(ask.club, memberOf(ask), ask.params.template, ask.body.licence),
  takeOffShelf: (ask) => publishing.takeOffShelf(ask.club, memberOf(ask), ask.params.template),
  thank: (ask) => telling.thank(ask.club, memberOf(ask), ask.params.template),
  unthank: (ask) => telling.unthank(ask.club, memberOf(ask), ask.params.template),
  remarks: (ask) => telling.remarks(ask.club, memberOf(ask), ask.params.template, ask.query.after),
  remark: async (ask) => {
    const who = await often(ask, 'words');
    return telling.remark(ask.club, who, ask.params.template, ask.body.text);
  },
  removeRemark: (ask) => telling.removeRemark(ask.club, memberOf(ask), ask.params.remark),
  built: (ask) => telling.built(ask.club, memberOf(ask), ask.params.template, ask.query.after),
  tellBuilt: async (ask) => {
    const who = await often(ask, 'photo');
    return telling.tellBuilt(ask.club, who, ask.params.template, ask.body);
  },
  removeBuilt: (ask) => telling.removeBuilt(ask.club, memberOf(ask), ask.params.built),
  suggestions: (ask) => suggesting.suggestionsAbout(ask.club, memberOf(ask), ask.params.template),
  mySuggestions: (ask) => suggesting.mySuggestions(ask.club, memberOf(ask)),
  suggest: async (ask) => {
    const who = await often(ask, 'publish');
    return suggesting.suggest(ask.club, who, ask.params.template, ask.body);
  },
  suggestion: (ask) => suggesting.suggestion(ask.club, memberOf(ask), ask.params.suggestion),
  accept: async (ask) => {
    const who = await often(ask, 'publish');
    return publishing.accept(ask.club, who, ask.params.suggestion, ask.body);
  },
  decline: (ask) =>
    suggesting.decline(ask.club, memberOf(ask), ask.params.suggestion, ask.body.word),
  takeBack: (ask) => suggesting.takeBack(ask.club, memberOf(ask), ask.params.suggestion),
  report: async (ask) => reporting.report(ask.club, await often(ask, 'words'), ask.body),
  reports: (ask) => reporting.reports(ask.club, memberOf(ask)),
  settleReport: (ask) =>
    reporting.settleReport(ask.club, memberOf(ask), ask.params.report, ask.body.do),
  unhide: ({ club, body }) => reporting.unhide(club, body.of, body.id),

  books: (ask) => books.books(ask.club, memberOf(ask)),
  keepBook: async (ask) => books.keepBook(ask.club, await often(ask, 'save'), ask.body),
  book: (ask) => books.book(ask.club, memberOf(ask), ask.params.book, ask.query.since),
  addState: async (ask) => {
    const who = await often(ask, 'save');
    return books.addState(ask.club, who, ask.params.book, ask.body);
  },
  states: (ask) => books.states(ask.club, memberOf(ask), ask.params.book),
  letBookGo: (ask) => books.removeBook(ask.club, memberOf(ask), ask.params.book),
  shareBook: (ask) => books.share(ask.club, memberOf(ask), ask.params.book, ask.params.member),
  unshareBook: (ask) => books.unshare(ask.club, memberOf(ask), ask.params.book, ask.params.member),

  health: async ({ club }) => {
    await club.database.ping();
    return { well: true, database: club.database.kind, schema: await schemaOf(club.database) };
  },
};
