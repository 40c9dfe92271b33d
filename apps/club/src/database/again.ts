import { setTimeout } from 'node:timers/promises';
import { DatabaseBusy, passes } from './errors.ts';

/** Eight who publish side by side in a small club were seen to be tried nine times (PostgreSQL locks whole pages of an index). */
const TRIES = 16;
/** The longest pause, ms. */
const LONGEST = 600;

/**
 * Does something, and does it again where others were quicker, at most sixteen times, with a pause that grows and is never the
 * same for two.
 * @throws DatabaseBusy where it went wrong each time; anything else as it came
 */
export async function again<T>(
  once: () => Promise<T>,
  worthIt: (error: unknown) => boolean = passes,
): Promise<T> {
  for (let tried = 1; ; tried += 1) {
    try {
      return await once();
    } catch (error) {
      if (!worthIt(error)) throw error;
      if (tried === TRIES) throw passes(error) ? new DatabaseBusy(error) : error;
    }
    await setTimeout(Math.random() * Math.min(LONGEST, 8 * 2 ** tried));
  }
}
