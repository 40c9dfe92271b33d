import type { BookCard } from '@kerfbook/drawing';

/** A card with its picture, as `bookCard` makes it. */
export interface DrawnCard {
  readonly card: BookCard;
  /** An SVG; left out where nothing is drawn. */
  readonly picture?: string;
}
