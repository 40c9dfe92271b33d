import { amountsOf, figuresSaid } from '@kerfbook/guide';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { CardPrice } from './drawn-card.ts';

/** What a workbook asks for its work, tax included. */
export function cardPrice(book: OpenWorkbook): CardPrice {
  const found = amountsOf(figuresSaid(book));
  if (!found.ok) return { says: found.says };
  const { text, amount } = found.amounts.total;
  return { text, amount, currency: book.currency };
}
