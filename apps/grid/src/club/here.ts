import { Watched } from '@kerfbook/keeping';
import { type AnswerOf, type Asked, ask, ClubRefused, type RouteName } from '@kerfbook/protocol';
import { useEffect, useSyncExternalStore } from 'react';

/** What the club says of itself and of whoever is signed in. */
export type Here = AnswerOf<'here'>;

/** A member who is signed in. */
export type Me = NonNullable<Here['me']>;

/** How things stand with the club that serves the page. */
export type ClubState =
  | { readonly is: 'asking' }
  | { readonly is: 'away'; readonly says: string }
  | { readonly is: 'here'; readonly here: Here };

/** How things stand, to be watched. */
export const club = new Watched<ClubState>({ is: 'asking' });

/** Suggestions that wait for an answer of whoever is signed in. */
export const toAnswer = new Watched(0);

let looking: Promise<void> | undefined;

/** Asks the club whether it is there and who is signed in; `again` also where that is known. */
export function lookHere(again?: 'again'): Promise<void> {
  if (looking === undefined || again !== undefined) looking = look();
  return looking;
}

async function look(): Promise<void> {
  try {
    const here = await ask(PAGE, 'here', {});
    club.set({ is: 'here', here });
    if (here.me === undefined) toAnswer.set(0);
    else await countToAnswer();
  } catch (error) {
    club.set({ is: 'away', says: refusal(error) });
  }
}

/** Counts anew what waits for an answer. It helps only: where it cannot be counted nothing is said. */
export async function countToAnswer(): Promise<void> {
  const waiting = await ask(PAGE, 'mySuggestions', {}).catch(() => undefined);
  if (waiting !== undefined) toAnswer.set(waiting.toAnswer.length);
}

/** The page is the club's own. */
const PAGE = { base: '' };

/**
 * Asks the page's own club. Where nobody is signed in any more, or the club is gone, the whole page learns of it.
 * @throws ClubRefused with a sentence for the person
 */
export async function askClub<N extends RouteName>(
  name: N,
  asked: Asked<N>,
  signal?: AbortSignal,
): Promise<AnswerOf<N>> {
  try {
    return await ask(PAGE, name, asked, signal);
  } catch (error) {
    if (error instanceof ClubRefused && error.code === 'signedOut') void lookHere('again');
    throw error;
  }
}

/** Something that did not work, in words for the person. */
export class Told extends Error {
  override readonly name = 'Told';
}

/** What went wrong, for the person. */
export function refusal(error: unknown): string {
  if (error instanceof ClubRefused || error instanceof Told) return error.message;
  console.error(error);
  return 'That did not work, and Kerfbook does not know why. Load the page again, then try once more.';
}

/** How things stand with the club; it is asked once. */
export function useClub(): ClubState {
  useEffect(() => void lookHere(), []);
  return useSyncExternalStore(club.watch, () => club.value);
}
