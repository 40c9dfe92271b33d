import {
  edition,
  PASSWORD,
  packed,
  type TestClub,
  textOf,
  type Visitor,
} from '@kerfbook/club/testing';
import type { RouteName } from '@kerfbook/protocol';

/** Whoever may ask in these tests. */
export type Asker = 'owner' | 'keeper' | 'other' | 'token' | 'nobody';
/** The askers. */
export const ASKERS: readonly Asker[] = ['owner', 'keeper', 'other', 'token', 'nobody'];

/** A club's members, one of everything that one of them has, and what each route is asked so that it can be done. */
export interface Stage {
  readonly askers: Readonly<Record<Asker, Visitor>>;
  readonly asked: (name: RouteName, at: number) => Wholesome;
}

/** What a route is asked, as it should be. */
export interface Wholesome {
  readonly params?: Readonly<Record<string, string | number>>;
  readonly query?: Readonly<Record<string, string>>;
  readonly body?: Readonly<Record<string, unknown>>;
}

const BOOK = packed(textOf('bench'));
let stages = 0;

/** Fills a club with one of everything. */
export async function stageOf(club: TestClub): Promise<Stage> {
  stages += 1;
  const own = `${process.pid}-${stages}`;
  const [owner, other, keeper] = [
    await club.member(`Ada ${own}`),
    await club.member(`Otto ${own}`),
    await club.member(`Kim ${own}`, 'keeper'),
  ];
  const template = `template-${own}`;
  await owner.get('publish', { body: { id: template, licence: 'cc-by-4.0', ...edition() } });
  const suggestion = `suggestion-${own}`;
  const { text } = edition();
  await other.get('suggest', {
    params: { template },
    body: { id: suggestion, base: 1, text, note: 'Wider.', changes: [] },
  });
  const remark = await owner.get('remark', {
    params: { template },
    body: { text: 'Mind the grain.' },
  });
  const built = await owner.get('tellBuilt', {
    params: { template },
    body: { revision: 1, size: '60 in', changed: 'Longer.' },
  });
  const book = `book-of-ada-${own}`;
  await owner.get('keepBook', { body: { id: book, title: 'Bench', device: 'desk', ...BOOK } });
  const made = await owner.get('makeToken', { body: { label: 'desk', days: 300 } });
  await other.get('report', { body: { of: 'template', id: template, why: 'Not a bench.' } });
  const { reports } = await keeper.get('reports', {});
  const report = reports.find(({ about }) => about === template)?.id ?? '';
  const invitation = await keeper.get('invite', { body: { role: 'member', days: 30 } });
  const token = club.visitor();
  token.token = made.token;
  const ofTemplate = { params: { template } };
  const ofSuggestion = { params: { suggestion } };
  const passkey = { challenge: 'challenge-that-is-not', response: { id: 'x', type: 'public-key' } };
  const change = { sheet: 'Base', what: 'B1 (seat_length)', before: '48', after: '60' };
  const fresh = { ...edition(), changes: [change] };
  const asked = (name: RouteName, at: number): Wholesome => {
    const all: Partial<Record<RouteName, Wholesome>> = {
      lookAtInvitation: { body: { code: invitation.code } },
      join: { body: { code: invitation.code, name: `New ${own} ${at}`, password: PASSWORD } },
      signIn: { body: { name: `Ada ${own}`, password: PASSWORD } },
      passkeySignIn: { body: passkey },
      addPasskey: { body: { ...passkey, label: 'phone' } },
      removePasskey: { params: { passkey: 'passkey-that-is-not' } },
      setPassword: { body: { now: PASSWORD, next: 'lantern harbour walnut' } },
      endSession: { params: { session: 'session-that-is-not' } },
      makeToken: { body: { label: 'another', days: 1 } },
      endToken: { params: { token: made.id } },
      leave: { body: { published: 'give' } },
      invite: { body: { role: 'member', note: 'For Bea', days: 1 } },
      withdrawInvitation: { params: { invitation: invitation.id } },
      setRole: { params: { member: other.id }, body: { role: 'member' } },
      removeMember: { params: { member: other.id } },
      recover: { params: { member: other.id } },
      renameClub: { body: { name: 'Another name' } },
      browse: { query: { find: 'bench', wood: 'white oak', longest: '0-2000', order: 'changed' } },
      template: ofTemplate,
      revision: { params: { template, number: 1 } },
      publish: {
        body: {
          ...{ id: `made-${own}-${at}`, licence: 'club', ...fresh },
          from: { id: template, revision: 1 },
        },
      },
      publishRevision: { ...ofTemplate, body: { parent: 1, ...fresh } },
      setLicence: { ...ofTemplate, body: { licence: 'cc0-1.0' } },
      takeOffShelf: ofTemplate,
      thank: ofTemplate,
      unthank: ofTemplate,
      remarks: { ...ofTemplate, query: {} },
      remark: { ...ofTemplate, body: { text: 'A fine bench.' } },
      removeRemark: { params: { remark: remark.id } },
      built: { ...ofTemplate, query: {} },
      tellBuilt: { ...ofTemplate, body: { revision: 1, size: '50 in', changed: '' } },
      removeBuilt: { params: { built: built.id } },
      suggestions: ofTemplate,
      suggest: {
        ...ofTemplate,
        body: { id: `suggested-${own}-${at}`, base: 1, text, note: '', changes: [change] },
      },
      suggestion: ofSuggestion,
      accept: { ...ofSuggestion, body: { parent: 1, word: 'Thanks.', ...fresh } },
      decline: { ...ofSuggestion, body: { word: 'Not this one.' } },
      takeBack: ofSuggestion,
      report: { body: { of: 'remark', id: remark.id, why: 'Not so.' } },
      settleReport: { params: { report }, body: { do: 'leave' } },
      unhide: { body: { of: 'template', id: template } },
      keepBook: { body: { id: `book-${own}-${at}`, title: 'Bench', device: 'desk', ...BOOK } },
      book: { params: { book }, query: { since: '0' } },
      addState: {
        params: { book },
        body: { parent: 1, title: 'Bench', device: 'desk', changes: 1, ...BOOK },
      },
      states: { params: { book } },
      letBookGo: { params: { book } },
      shareBook: { params: { book, member: other.id } },
      unshareBook: { params: { book, member: other.id } },
    };
    return all[name] ?? {};
  };
  return { askers: { owner, other, keeper, token, nobody: club.visitor() }, asked };
}
