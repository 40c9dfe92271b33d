import type { DrawnCard } from './drawn-card.ts';

/** The cards of the built-in templates by their keys; the build puts them in, see `scripts/built-in-cards.mjs`. */
export const BUILT_IN_CARDS: ReadonlyMap<string, DrawnCard> = new Map();
