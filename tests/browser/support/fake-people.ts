import type { Asked, RouteName } from '@kerfbook/protocol';
import { MEMBERS, type Member } from './fake-members.ts';

/** A time at which nothing that is shown has run out, ms. */
const LATER = Date.UTC(2040, 0, 1);
const MADE = Date.UTC(2026, 9, 12, 14);
const CODE = 'made-up-code-of-a-link-that-lets-somebody-in';
const LONG = 'Somebody from the other side of the river, with a name of many words';

const byKim = { id: MEMBERS.kim.id, name: MEMBERS.kim.name };

/** What a small club answers about its people: as much as its pages show, always the same. */
export function peopleAnswer(name: RouteName, body: unknown, me: Member): unknown {
  switch (name) {
    case 'lookAtInvitation':
      return { club: 'The made-up club', kind: 'join', role: 'keeper', ends: LATER };
    case 'members': {
      const all = [
        ...Object.values(MEMBERS),
        ...Array.from({ length: 12 }, (_none, i) => ({
          id: `made-up-member-${i}`,
          name: `${LONG.slice(0, 56)} ${i}`,
          role: 'member' as const,
        })),
      ];
      return { members: all.map((one) => ({ ...one, joined: MADE })) };
    }
    case 'invitations':
      return {
        invitations: [
          {
            id: 'made-up-invitation-1',
            kind: 'join',
            role: 'keeper',
            note: LONG,
            by: byKim,
            made: MADE,
            ends: LATER,
          },
          {
            id: 'made-up-invitation-2',
            kind: 'recover',
            role: 'member',
            by: byKim,
            made: MADE,
            ends: LATER - 60_000,
          },
        ],
      };
    case 'invite':
    case 'recover': {
      const { to } = (body as Asked<'recover'>['body']) ?? {};
      const says = `The link was not sent by e-mail: the mail server does not take mail for ${to}. Check the address, or copy the link.`;
      return {
        id: 'made-up-invitation-3',
        code: CODE,
        ends: LATER,
        ...(to === undefined ? {} : { mail: { sent: false, says } }),
      };
    }
    case 'account': {
      const days = { made: MADE, seen: MADE, ends: LATER };
      const agent = 'Mozilla/5.0 (X11; Linux x86_64) AppleWebKit/537.36 Chrome/140 Safari/537.36';
      return {
        me,
        hasPassword: true,
        passkeys: [
          { id: 'made-up-passkey', label: 'The tablet at the bench', made: MADE, used: MADE },
        ],
        sessions: [
          { id: 'made-up-session-1', on: agent, here: true, ...days },
          { id: 'made-up-session-2', on: 'A browser nobody knows', here: false, ...days },
        ],
        tokens: [{ id: 'made-up-token', label: LONG.slice(0, 60), made: MADE, ends: LATER }],
      };
    }
    case 'reports':
      return {
        reports: (['template', 'remark'] as const).map((of, i) => ({
          id: `made-up-report-${i}`,
          of,
          about: `made-up-thing-${i}`,
          template: `made-up-template-${i}`,
          title: i === 0 ? LONG : 'Table for the club',
          text: 'Words'.repeat(40),
          by: byKim,
          why: 'A made-up reason, in two lines:\nit is not a table.',
          made: MADE,
        })),
      };
    default:
      return undefined;
  }
}
