import { Refused } from '../refused.ts';

/**
 * Where a list goes on: the moment and the id of the last one told. Both are plain, since they say nothing that whoever
 * asks has not been told.
 */
export interface Spot {
  readonly at: number;
  readonly id: string;
}

/** As it goes out under `next`. */
export const nextOf = (spot: Spot): string => `${spot.at}.${spot.id}`;

/** As it comes back under `after`. */
export function spotOf(after: string | undefined): Spot | undefined {
  if (after === undefined) return undefined;
  const [, at, id] = /^(\d{1,16})\.([A-Za-z0-9_-]{8,64})$/.exec(after) ?? [];
  if (at === undefined || id === undefined) {
    throw new Refused('unreadable', 'The list cannot go on from there. Begin it anew.');
  }
  return { at: Number(at), id };
}

/** The rows that a list tells, and where it goes on: one more was asked for than it tells. */
export function told<T>(
  rows: readonly T[],
  most: number,
  spot: (row: T) => Spot,
): { readonly rows: readonly T[]; readonly next?: string } {
  const last = rows[most - 1];
  if (rows.length <= most || last === undefined) return { rows };
  return { rows: rows.slice(0, most), next: nextOf(spot(last)) };
}
