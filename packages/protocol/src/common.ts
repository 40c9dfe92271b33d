import { z } from 'zod';

/** Made in code, never by a database: the same on every engine, and none can be guessed from another. */
export const Id = z.string().regex(/^[A-Za-z0-9_-]{8,64}$/);

/** Milliseconds since 1970. */
export const Time = z.int().min(0).max(8.64e15);

/** SHA-256 in hexadecimal digits. */
export const Sign = z.string().regex(/^[0-9a-f]{64}$/);

/** Words as a person types them, on one line; what only looks empty is none. */
export const line = (most: number) =>
  z
    .string()
    .max(most)
    .regex(/^[^\p{Cc}\p{Cs}\u2028\u2029]*$/u, 'has no line breaks or control characters')
    .refine((text) => text.trim() !== '', 'is empty');

/** Words over several lines. */
export const words = (most: number) =>
  z
    .string()
    .max(most)
    .regex(
      /^[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\p{Cs}]*$/u,
      'has no control characters',
    );

/** Letters of a workbook on its way, deflated (RFC 1951) and in base64: about a tenth of its text. */
export const MOST_PACKED = 2 * 1024 * 1024;

/** A saved workbook, deflated (RFC 1951) and in base64. */
export const Packed = z
  .string()
  .min(4)
  .max(MOST_PACKED)
  .regex(/^[A-Za-z0-9+/]+={0,2}$/);

/** How many of anything a list answers with at once. */
export const MOST_LISTED = 48;

/** What a filter finds is counted up to here: more is said as so many or more. */
export const MOST_COUNTED = 400;

/** Where a list goes on: what the part before it said under `next`. */
export const After = z.string().max(200).optional();

/** Whoever did something, as others see him. */
export const Person = z.strictObject({
  id: Id,
  name: z.string(),
  /** He left or was removed; what he gave to the shelf stays. */
  gone: z.boolean().optional(),
});

/** Nothing but that it was done. */
export const Done = z.strictObject({ done: z.literal(true) });
/** The one value of {@link Done}. */
export const DONE = { done: true } as const;

/** A person of the club, as others see him. */
export type Person = z.infer<typeof Person>;
