import { FIRST_WITHOUT, QUOTE_PARTS, type QuotePart } from '@kerfbook/guide';
import type { BookStore } from '@kerfbook/keeping';

/** Which parts of a quote a customer sees. */
export type CustomerChoice = Readonly<Record<QuotePart, boolean>>;

/** What can be ticked, in its order. */
export const CUSTOMER_KEYS = Object.keys(QUOTE_PARTS) as QuotePart[];

const choiceOf = (on: (key: QuotePart) => boolean): CustomerChoice =>
  Object.fromEntries(CUSTOMER_KEYS.map((key) => [key, on(key)])) as CustomerChoice;

/** Until a maker chose: what is agreed, and nothing that leads to how it was reckoned. */
export const FIRST_CHOICE: CustomerChoice = choiceOf((key) => !FIRST_WITHOUT.includes(key));

const storeKey = (book: string): string => `customer:${book}`;

/** What was chosen for a workbook on this device; what is damaged or was never chosen is as at first. */
export async function readChoice(
  store: Pick<BookStore, 'get'>,
  book: string,
): Promise<CustomerChoice> {
  const kept = await store.get(storeKey(book));
  if (typeof kept !== 'object' || kept === null) return FIRST_CHOICE;
  return choiceOf((key) => {
    const on: unknown = Reflect.get(kept, key);
    return typeof on === 'boolean' ? on : FIRST_CHOICE[key];
  });
}

export const keepChoice = (
  store: Pick<BookStore, 'set'>,
  book: string,
  choice: CustomerChoice,
): Promise<void> => store.set(storeKey(book), choice);
