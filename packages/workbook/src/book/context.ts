import type { BookState, Place } from '@kerfbook/document';

/** What an entry in a cell is read by, and its value shown by. */
export function readContext({ state }: { readonly state: BookState }, sheet: string, place: Place) {
  const cell = state.cell({ sheet, ...place });
  const { units: system, currency = 'USD' } = state.head;
  return {
    system,
    currency,
    ...(cell?.quantity === undefined ? {} : { quantity: cell.quantity }),
    ...(cell?.show === undefined ? {} : { show: cell.show }),
  };
}
