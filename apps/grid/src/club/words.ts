import type { BookCard } from '@kerfbook/drawing';
import { type Card, LICENCES, type Licence } from '@kerfbook/protocol';

export { counted } from '../library/kinds.ts';

/** Licenses by the name alone. */
export const LICENCE_SHORT: Readonly<Record<Licence, string>> = {
  'cc0-1.0': 'CC0',
  'cc-by-4.0': 'CC BY',
  'cc-by-sa-4.0': 'CC BY-SA',
  'cc-by-nc-sa-4.0': 'CC BY-NC-SA',
  club: 'for this club alone',
};

/** The licenses in the order in which they are offered. */
export const LICENCE_KEYS = Object.keys(LICENCES) as readonly Licence[];

/** What a template says of itself, as the cards of the list of workbooks show it. */
export function cardFacts({ about, size, tags, woods, joints, results }: Card): BookCard {
  return {
    ...(about === undefined ? {} : { about }),
    ...(size === undefined ? {} : { size }),
    tags,
    woods,
    joints,
    results,
    gives: [],
  };
}
