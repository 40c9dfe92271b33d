import { ROUTES, type RouteName } from '@kerfbook/protocol';
import { expect, it } from 'vitest';
import { startSession } from '../people/sessions.ts';
import {
  edition,
  PASSWORD,
  packed,
  smallBook,
  type TestClub,
  testClub,
  type Visitor,
} from '../testing/club.ts';
import { onBoth } from '../testing/databases.ts';

/**
 * Who may do what: every route, asked by everyone. The route is asked of things that belong to Ada; `other` is a member
 * who has no part in them.
 */
type Asker = 'nobody' | 'removed' | 'other' | 'owner' | 'keeper' | 'elsewhere' | 'token';

/** `+` it is done; otherwise why it is not. */
type Outcome = '+' | 'signedOut' | 'notAllowed' | 'notThere' | 'over' | 'notSo';

const OUT = 'signedOut';
/** Nobody, a removed member and a keeper of another club are signed out here; what the others are told differs. */
const row = (
  other: Outcome,
  owner: Outcome,
  keeper: Outcome,
  token: Outcome,
): Readonly<Record<Asker, Outcome>> => ({
  nobody: OUT,
  removed: OUT,
  elsewhere: OUT,
  other,
  owner,
  keeper,
  token,
});
const NO = 'notAllowed';
const GONE = 'notThere';
const anyone = (outcome: Outcome): Readonly<Record<Asker, Outcome>> => ({
  nobody: outcome,
  removed: outcome,
  elsewhere: outcome,
  other: outcome,
  owner: outcome,
  keeper: outcome,
  token: NO,
});
/** Every member; a token where the route takes one. */
const all = (token: Outcome = NO) => row('+', '+', '+', token);
const keepers = row(NO, NO, '+', NO);

/** The route as each is answered; `token` is a token of Ada's. */
const MATRIX: Readonly<Record<RouteName, Readonly<Record<Asker, Outcome>>>> = {
  here: { ...anyone('+'), token: '+' },
  health: anyone('+'),
  lookAtInvitation: anyone('over'),
  join: anyone('over'),
  signIn: anyone('signedOut'),
  beginPasskeySignIn: anyone('+'),
  passkeySignIn: anyone('over'),
  signOut: all(),
  account: all(),
  beginPasskey: all(),
  addPasskey: row('over', 'over', 'over', NO),
  removePasskey: row(GONE, GONE, GONE, NO),
  setPassword: row('notSo', 'notSo', 'notSo', NO),
  endSession: row(GONE, '+', GONE, NO),
  endOtherSessions: all(),
  makeToken: all(),
  endToken: row(GONE, '+', GONE, NO),
  leave: all(),
  members: all(),
  invite: keepers,
  invitations: keepers,
  withdrawInvitation: keepers,
  setRole: keepers,
  removeMember: keepers,
  recover: keepers,
  renameClub: keepers,
  browse: all('+'),
  facets: all(),
  template: all('+'),
  revision: all('+'),
  publish: all('+'),
  publishRevision: row(NO, '+', NO, '+'),
  setLicence: row(NO, '+', NO, NO),
  takeOffShelf: row(NO, '+', '+', NO),
  thank: all(),
  unthank: all(),
  remarks: all(),
  remark: all(),
  removeRemark: row(GONE, '+', '+', NO),
  built: all(),
  tellBuilt: all(),
  removeBuilt: row(GONE, '+', '+', NO),
  suggestions: all(),
  mySuggestions: all('+'),
  suggest: all('+'),
  suggestion: row(GONE, '+', GONE, '+'),
  accept: row(GONE, '+', GONE, NO),
  decline: row(GONE, '+', GONE, NO),
  takeBack: row(GONE, GONE, GONE, NO),
  report: all(),
  reports: keepers,
  settleReport: keepers,
  unhide: keepers,
  books: all(),
  keepBook: all(),
  book: row(GONE, '+', GONE, NO),
  addState: row(GONE, '+', GONE, NO),
  states: row(GONE, '+', GONE, NO),
  letBookGo: row(GONE, '+', GONE, NO),
  shareBook: row(GONE, '+', GONE, NO),
  unshareBook: row(GONE, '+', GONE, NO),
};

const ASKERS = Object.keys(anyone('+')) as Asker[];
const BOOK = packed(smallBook());

/** A club with one of everything of Ada's, and everyone who asks. */
interface Stage {
  readonly here: TestClub;
  readonly askers: Readonly<Record<Asker, Visitor>>;
  readonly ids: Readonly<Record<string, string>>;
}

let stages = 0;

async function stage(here: TestClub, there: TestClub): Promise<Stage> {
  stages += 1;
  const ada = await here.member(`Ada ${stages}`);
  const other = await here.member(`Otto ${stages}`);
  const removed = await here.member(`Ruth ${stages}`);
  const helper = await here.member(`Hana ${stages}`);
  await here.keeper.get('removeMember', { params: { member: removed.id } });
  const template = `template-${stages}`;
  await ada.get('publish', { body: { id: template, licence: 'cc-by-4.0', ...edition() } });
  const suggestion = `suggestion-${stages}`;
  await helper.get('suggest', {
    params: { template },
    body: { id: suggestion, base: 1, text: edition().text, note: 'Wider.', changes: [] },
  });
  const remark = await ada.get('remark', {
    params: { template },
    body: { text: 'Mind the grain.' },
  });
  const built = await ada.get('tellBuilt', {
    params: { template },
    body: { revision: 1, size: '60 in', changed: 'Longer.' },
  });
  const book = `book-of-ada-${stages}`;
  await ada.get('keepBook', { body: { id: book, title: 'Bench', device: 'desk', ...BOOK } });
  await ada.get('shareBook', { params: { book, member: helper.id } });
  const token = await ada.get('makeToken', { body: { label: 'desk', days: 30 } });
  await other.get('report', { body: { of: 'template', id: template, why: 'Not a bench.' } });
  const { reports } = await here.keeper.get('reports', {});
  const report = reports.find(({ about }) => about === template)?.id ?? '';
  const invitation = await here.keeper.get('invite', { body: { role: 'member', days: 7 } });
  const secret = await here.club.database.write((t) =>
    startSession(here.club, t, ada.id, 'tablet'),
  );
  const session =
    (await ada.get('account', {})).sessions.find(({ on }) => on === 'tablet')?.id ?? '';
  expect(secret).not.toBe('');
  const withToken = here.visitor();
  withToken.token = token.token;
  // The keeper of another club has a session, and none here.
  const elsewhere = here.visitor();
  const cookie = there.keeper.cookie ?? '';
  return {
    here,
    askers: {
      nobody: here.visitor(),
      removed,
      other,
      owner: ada,
      // Another keeper, so that one who may invite and settle is left.
      keeper: await here.member(`Kim ${stages}`, 'keeper'),
      elsewhere: withCookie(elsewhere, cookie),
      token: withToken,
    },
    ids: {
      template,
      suggestion,
      remark: remark.id,
      built: built.id,
      book,
      token: token.id,
      report,
      invitation: invitation.id,
      session,
      helper: helper.id,
      other: other.id,
      code: 'A'.repeat(43),
    },
  };
}

function withCookie(visitor: Visitor, cookie: string): Visitor {
  const ask = visitor.ask.bind(visitor);
  visitor.ask = (name, asked, headers = {}) => ask(name, asked, { cookie, ...headers });
  return visitor;
}

/** What each route is asked. */
function askedOf(name: RouteName, ids: Readonly<Record<string, string>>, who: Asker): object {
  const { template = '', book = '', suggestion = '' } = ids;
  const ofTemplate = { params: { template } };
  const state = { parent: 1, title: 'Bench', device: 'desk', changes: 1, ...BOOK };
  const passkey = { challenge: 'challenge-that-is-not', response: {} };
  const asked: Partial<Record<RouteName, object>> = {
    lookAtInvitation: { body: { code: ids.code } },
    join: { body: { code: ids.code, name: `New ${who}`, password: PASSWORD } },
    signIn: { body: { name: 'Ada', password: 'not her password' } },
    passkeySignIn: { body: passkey },
    addPasskey: { body: { ...passkey, label: 'phone' } },
    removePasskey: { params: { passkey: 'passkey-that-is-not' } },
    setPassword: { body: { now: 'not this one', next: 'lantern harbour walnut' } },
    endSession: { params: { session: ids.session } },
    makeToken: { body: { label: 'another', days: 1 } },
    endToken: { params: { token: ids.token } },
    leave: { body: { published: 'give' } },
    invite: { body: { role: 'member', days: 1 } },
    withdrawInvitation: { params: { invitation: ids.invitation } },
    setRole: { params: { member: ids.helper }, body: { role: 'keeper' } },
    removeMember: { params: { member: ids.helper } },
    recover: { params: { member: ids.helper } },
    renameClub: { body: { name: 'Another name' } },
    template: ofTemplate,
    revision: { params: { template, number: 1 } },
    publish: { body: { id: `made-by-${who}-${template}`, licence: 'club', ...edition() } },
    publishRevision: { ...ofTemplate, body: { parent: 1, ...edition({ title: who }) } },
    setLicence: { ...ofTemplate, body: { licence: 'club' } },
    takeOffShelf: ofTemplate,
    thank: ofTemplate,
    unthank: ofTemplate,
    remarks: ofTemplate,
    remark: { ...ofTemplate, body: { text: 'A fine bench.' } },
    removeRemark: { params: { remark: ids.remark } },
    built: ofTemplate,
    tellBuilt: { ...ofTemplate, body: { revision: 1, size: '50 in', changed: '' } },
    removeBuilt: { params: { built: ids.built } },
    suggestions: ofTemplate,
    suggest: {
      ...ofTemplate,
      body: {
        id: `suggested-by-${who}-${template}`,
        base: 1,
        text: edition().text,
        note: '',
        changes: [],
      },
    },
    suggestion: { params: { suggestion } },
    accept: { params: { suggestion }, body: { parent: 1, word: 'Thanks.', ...edition() } },
    decline: { params: { suggestion }, body: { word: 'Not this one.' } },
    takeBack: { params: { suggestion } },
    report: { body: { of: 'remark', id: ids.remark, why: 'Not so.' } },
    settleReport: { params: { report: ids.report }, body: { do: 'leave' } },
    unhide: { body: { of: 'template', id: template } },
    keepBook: {
      body: { id: `book-of-${who}-${template}`, title: 'Bench', device: 'desk', ...BOOK },
    },
    book: { params: { book } },
    addState: { params: { book }, body: state },
    states: { params: { book } },
    letBookGo: { params: { book } },
    shareBook: { params: { book, member: ids.other } },
    unshareBook: { params: { book, member: ids.helper } },
  };
  return asked[name] ?? {};
}

onBoth('who may do what', (open) => {
  it('names every route', () => {
    expect(Object.keys(MATRIX).sort()).toEqual(Object.keys(ROUTES).sort());
  });

  let clubs: Promise<readonly [TestClub, TestClub]> | undefined;
  const both = async (): Promise<readonly [TestClub, TestClub]> => {
    const database = await open();
    return [await testClub(database), await testClub(database)];
  };

  for (const name of Object.keys(MATRIX) as RouteName[]) {
    it(`${name}`, async () => {
      clubs ??= both();
      const [own, foreign] = await clubs;
      // Nobody has tried too often yet.
      own.clock.pass(20 * 60_000);
      const found: Partial<Record<Asker, string>> = {};
      let untouched: Stage | undefined;
      for (const who of ASKERS) {
        const { here, askers, ids } = untouched ?? (await stage(own, foreign));
        const answered = await askers[who].ask(name, askedOf(name, ids, who) as never);
        found[who] = answered.status === 200 ? '+' : (answered.refused ?? String(answered.status));
        // What was done once must not help or hinder the next; what only was read or refused does neither.
        const changed = answered.status === 200 && ROUTES[name].method !== 'GET';
        untouched = changed ? undefined : (untouched ?? { here, askers, ids });
      }
      expect(found).toEqual(MATRIX[name]);
    });
  }
});
