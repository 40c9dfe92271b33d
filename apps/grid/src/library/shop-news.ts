import { type Bookcase, breath } from '@kerfbook/keeping';
import { leftAsIs, shopsBook } from '@kerfbook/keeping/shelf';
import { loadLazy, type ShopFigure, ShopOffer, shopFigures } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';

/** What a figure is left by: what it is and what the shop has. */
export const signed = ({ key, sign }: ShopFigure): string => `${key} ${sign}`;

/** What of the shop's is to be told of the workbook at hand: what is other there, or used and not there, and was not left so. */
export async function shopNews(
  session: Session,
  bookcase: Bookcase,
): Promise<readonly ShopFigure[]> {
  const shop = await shopsBook(bookcase);
  if (shop === undefined || 'says' in shop || shop.id === bookcase.current.id) return [];
  const left = await leftAsIs(bookcase);
  // The workbook of the shop is worked out, and with all of the engine.
  await loadLazy();
  await breath();
  return figuresFor(session, shop.document).filter((one) => one.tells && !left.has(signed(one)));
}

function figuresFor(
  session: Session,
  shop: Parameters<typeof shopFigures>[1],
): readonly ShopFigure[] {
  const book = session.settled();
  // Which of them would change an agreed price is tried on a copy.
  if (book.head.agreed !== undefined) {
    const made = ShopOffer.of(book.document(), shop);
    return made.ok ? made.offer.figures : [];
  }
  const found = shopFigures(book, shop);
  return found.ok ? found.figures : [];
}
