import type { BookCard } from '@kerfbook/drawing';

/** What a workbook asks for its work, as its customer's pages have it; a sentence where there is no price. */
export type CardPrice =
  | { readonly text: string; readonly amount: number; readonly currency: string }
  | { readonly says: string };

/** What a workbook of the maker's own says of itself in short. */
export interface OwnCard extends BookCard {
  readonly price: CardPrice;
}

/** A card with its picture, as `bookCard` makes it. */
export interface DrawnCard {
  readonly card: BookCard;
  /** An SVG; left out where nothing is drawn. */
  readonly picture?: string;
}

/** The same of one of the maker's own. */
export interface OwnDrawnCard extends DrawnCard {
  readonly card: OwnCard;
}
