import type { BookDocument } from '@kerfbook/document';
import { Workbook } from '@kerfbook/workbook';
import { type RowTexts, takeList } from '@kerfbook/workbook/from-text';
import { Unreadable } from '../unreadable.ts';
import type { FoundTable } from './parts-list.ts';

/** What parts are cut from, and with what: entries as they are typed. */
export interface Shop {
  /** Width of the saw's cut; a plan takes none for nothing. Blank: still to be typed. */
  readonly kerf: string;
  /** Rows of the stock table by its heads. */
  readonly boards: readonly RowTexts[];
}

/**
 * The workbook with parts that were read line by line in a parts table of their own, and with a stock table beside
 * them.
 * @throws Unreadable where an entry is none
 */
export function inShop(
  document: BookDocument,
  list: FoundTable | undefined,
  shop: Shop | undefined,
): BookDocument {
  if (list?.rows === undefined && shop === undefined) return document;
  const book = Workbook.open(document);
  const carryOut = (edit: Parameters<Workbook['apply']>[0]): void => {
    const done = book.apply(edit);
    if (!done.ok) throw new Unreadable(done.says);
  };
  if (list?.rows !== undefined) carryOut(takeList(book, 'parts', list.rows).edit);
  if (shop === undefined) return book.document();
  carryOut(takeList(book, 'stock', shop.boards).edit);
  const kerf = book.named('kerf')?.at;
  if (kerf !== undefined && shop.kerf.trim() !== '') {
    const { sheet, ...place } = kerf;
    carryOut({ do: 'enter', sheet, cells: [{ ...place, text: shop.kerf.trim() }] });
    const { problem } = book.cell(kerf);
    if (problem !== undefined) throw new Unreadable(`The saw kerf: ${problem.says}`);
  }
  return book.document();
}
