import type { AnswerOf } from '@kerfbook/protocol';
import { type Letter, type Mailer, NotSent } from './mailer.ts';

/** A link that lets somebody in. */
export interface MailedLink {
  /** Whoever opens it comes in as a member or a keeper, or is back in. */
  readonly kind: 'member' | 'keeper' | 'back';
  readonly code: string;
  readonly ends: number;
}

/** What an e-mail with a link says beside it. */
export interface About {
  readonly to: string;
  /** What the club is called. */
  readonly club: string;
  /** The keeper who sends it. */
  readonly by: string;
  /** Where others open the club; none where the keeper is at an address that is this machine alone. */
  readonly reached: string | undefined;
}

const COPY = 'Copy the link and hand it over yourself.';

/**
 * Sends a link that is made already to whom it is for; answers with what came of it: the link is good in any case.
 * @param note writes into the log why nothing was sent
 */
export async function linkMailed(
  mailer: Mailer,
  link: MailedLink,
  about: About,
  note: (about: Readonly<Record<string, string | number>>, what: string) => void,
): Promise<NonNullable<AnswerOf<'invite'>['mail']>> {
  const { reached, to } = about;
  const not = (why: string) => ({ sent: false, says: `The link was not sent by e-mail: ${why}` });
  if (reached === undefined) {
    return not(
      'it would say "localhost", which each device takes for itself. Open the club by its address on the network and make the link there.',
    );
  }
  try {
    await mailer(letterOf(link, about, reached));
    return { sent: true, says: `The link is on its way to ${to}.` };
  } catch (error) {
    if (!(error instanceof NotSent)) throw error;
    note(error.about, 'mail');
    switch (error.why) {
      case 'away':
        return not(`the club’s mail server cannot be reached. ${COPY}`);
      case 'address':
        return not(
          `the mail server does not take mail for ${to}. Check the address, or copy the link.`,
        );
      case 'refused':
        return not(`the mail server refused it. Whoever runs the club finds out why. ${COPY}`);
    }
  }
}

const UNTIL = new Intl.DateTimeFormat('en-US', {
  dateStyle: 'full',
  timeStyle: 'short',
  timeZone: 'UTC',
});

/** What stands in the e-mail: what the link is, the link, and what to do with it; no more. */
function letterOf({ kind, code, ends }: MailedLink, about: About, reached: string): Letter {
  const { to } = about;
  const [club, by] = [onOneLine(about.club), onOneLine(about.by)];
  const says = {
    member: `${by} invites you to the shelf of ${club}, as a member.`,
    keeper: `${by} invites you to the shelf of ${club}, as a keeper of the shelf.`,
    back: `${by} lets you back into ${club}: choose a new password, and you are in.`,
  };
  return {
    to,
    name: club,
    subject: kind === 'back' ? `Your way back into ${club}` : `You are invited to ${club}`,
    text: `${says[kind]}

Open this link:

${reached}#join=${code}

It is good once, until ${UNTIL.format(ends)} (UTC). Whoever has it can use it: keep it to yourself.

If you did not expect this, do nothing. Your address is not kept.
`,
  };
}

/** Names are on one line as they are typed; a setting may hold anything. */
const onOneLine = (text: string): string => text.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ').trim();
