import type { BookStore } from '@kerfbook/keeping';

/** What a customer may see, each with what its tick says. */
export const CUSTOMER_PARTS = {
  letterhead: 'Letterhead',
  drawing: 'Drawing',
  views: 'Views with sizes',
  sizes: 'Sizes',
  wood: 'Wood',
  finish: 'Finish',
  care: 'Care',
  price: 'Price',
  perSeat: 'Price per seat',
  deposit: 'Deposit',
  due: 'Delivery date',
  terms: 'Terms',
} as const;

export type CustomerPart = keyof typeof CUSTOMER_PARTS;
export type CustomerChoice = Readonly<Record<CustomerPart, boolean>>;

/** Until a maker chose: what is agreed, and nothing that leads to how it was reckoned. */
export const FIRST_CHOICE: CustomerChoice = {
  letterhead: true,
  drawing: true,
  views: false,
  sizes: true,
  wood: true,
  finish: true,
  care: true,
  price: true,
  perSeat: false,
  deposit: false,
  due: true,
  terms: true,
};

export const CUSTOMER_KEYS = Object.keys(CUSTOMER_PARTS) as CustomerPart[];

const storeKey = (book: string): string => `customer:${book}`;

/** What was chosen for a workbook on this device; what is damaged or was never chosen is as at first. */
export async function readChoice(
  store: Pick<BookStore, 'get'>,
  book: string,
): Promise<CustomerChoice> {
  const kept = await store.get(storeKey(book));
  if (typeof kept !== 'object' || kept === null) return FIRST_CHOICE;
  const chosen = CUSTOMER_KEYS.map((key) => {
    const on: unknown = Reflect.get(kept, key);
    return [key, typeof on === 'boolean' ? on : FIRST_CHOICE[key]];
  });
  return Object.fromEntries(chosen) as CustomerChoice;
}

export const keepChoice = (
  store: Pick<BookStore, 'set'>,
  book: string,
  choice: CustomerChoice,
): Promise<void> => store.set(storeKey(book), choice);
