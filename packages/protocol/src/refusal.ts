import { z } from 'zod';

/** Why the club did not do what was asked, by the status it answers with. */
export const REFUSALS = {
  /** What was sent cannot be read. */
  unreadable: 400,
  /** Nobody is signed in, or no longer. */
  signedOut: 401,
  /** Whoever is signed in may not do it. */
  notAllowed: 403,
  /** There is none, or none for whoever asked. */
  notThere: 404,
  /** It changed since whoever asked looked at it. */
  changed: 409,
  /** It was there and is gone for good: an invitation used, a link run out. */
  over: 410,
  /** Larger than the club takes. */
  tooLarge: 413,
  /** It was read and cannot be done as it is. */
  notSo: 422,
  /** Too many tries; `wait` says how many seconds to let pass. */
  tooOften: 429,
  /** The club itself is in trouble. */
  trouble: 500,
  /** The database does not answer, or its disk is full; nothing was changed. */
  notNow: 503,
} as const;

/** One of the reasons for which the club refuses. */
export type RefusalCode = keyof typeof REFUSALS;

/** What the club answers where it does not do what was asked. */
export const RefusalBody = z.strictObject({
  refused: z.enum(Object.keys(REFUSALS) as [RefusalCode, ...RefusalCode[]]),
  /** For the person: what was wrong, what was expected, what to do. */
  says: z.string(),
  /** Seconds to let pass. */
  wait: z.int().optional(),
  /** The number that stands now, where something was changed meanwhile. */
  head: z.int().optional(),
});

/** A refusal as it goes over the wire. */
export type RefusalBody = z.infer<typeof RefusalBody>;
