import { BookState, changesBetween, type Edit, keptByIds, loadValue } from '@kerfbook/document';
import type { Desk, Refusal } from './desk.ts';

/** `become`: another state of the workbook is taken over whole, by what differs (rules E6, H6). */
export function becomeBook(desk: Desk, { book }: Edit & { do: 'become' }): Refusal {
  const loaded = loadValue(book);
  if (!loaded.ok) return loaded;
  desk.change(...changesBetween(desk.state, keptByIds(BookState.of(loaded.document))));
  return undefined;
}
