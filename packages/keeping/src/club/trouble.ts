import { ClubRefused } from '@kerfbook/protocol';

/** Why the club did not do what was asked; nothing where something else went wrong. */
export const codeOf = (error: unknown): ClubRefused['code'] | undefined =>
  error instanceof ClubRefused ? error.code : undefined;

const ABOUT_IT: ReadonlySet<string | undefined> = new Set([
  'unreadable',
  'notAllowed',
  'notSo',
  'tooLarge',
  'over',
]);

/** The club does not take what was sent, and would not if it were sent again. */
export const refusesIt = (error: unknown): boolean => ABOUT_IT.has(codeOf(error));

/** In a sentence for a person. */
export const whySays = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);
