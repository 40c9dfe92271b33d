import type { AnswerOf, ROUTES, RouteName } from '@kerfbook/protocol';
import type { z } from 'zod';
import type { Asker } from '../asker.ts';
import type { Club } from '../club.ts';
import type { Mailer } from '../mail/mailer.ts';
import type { Site } from '../people/passkeys.ts';
import { Refused } from '../refused.ts';

/** What a route is asked, after its shapes and who may ask were checked. */
export interface Ask<N extends RouteName> {
  readonly club: Club;
  readonly params: z.output<(typeof ROUTES)[N]['params']>;
  readonly query: z.output<(typeof ROUTES)[N]['query']>;
  readonly body: z.output<(typeof ROUTES)[N]['body']>;
  /** Who asks, where somebody is signed in. */
  readonly asker: Asker | undefined;
  /** Where it came from, as far as that can be told. */
  readonly address: string;
  /** The browser, as it tells of itself. */
  readonly agent: string;
  /** What goes between page and club cannot be read on the way. */
  readonly secure: boolean;
  /** Where passkeys can be asked for at this address. */
  readonly site: Site | undefined;
  /** Sends e-mail, where whoever runs the club has set a mail server. */
  readonly mailer: Mailer | undefined;
  /** Where others open the club: as members type it, or as the page that asks has it; none where that is this machine. */
  readonly reached: string | undefined;
  /** Writes a line into the log: nothing that a person typed. */
  readonly note: (about: Readonly<Record<string, string | number>>, what: string) => void;
  /** Puts the secret of a session into the browser, or takes it out. */
  readonly keepSession: (secret: string | undefined) => void;
}

/** Carries out one route. */
export type Handler<N extends RouteName> = (ask: Ask<N>) => Promise<AnswerOf<N>>;

/** Whoever is signed in; routes for members have somebody. */
export function memberOf(ask: { readonly asker: Asker | undefined }): Asker {
  if (ask.asker === undefined) throw new Refused('signedOut', 'Sign in first.');
  return ask.asker;
}

/** Where passkeys can be asked for; a page over plain http on a network cannot. */
export function siteOf(ask: { readonly site: Site | undefined }): Site {
  if (ask.site === undefined) {
    throw new Refused(
      'notSo',
      'Passkeys work only over https and by a name. Open the club at such an address, or use your password.',
    );
  }
  return ask.site;
}
