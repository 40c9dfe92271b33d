import type { BookState, CellDocument, Place } from '@kerfbook/document';
import type { ShowContext } from '../quantities/style.ts';

/** What an entry in a cell is read by, and its value shown by. */
export function readContext(
  { state }: { readonly state: BookState },
  sheet: string,
  place: Place,
): ShowContext {
  return contextOf(state.cell({ sheet, ...place }), state.head);
}

/** The same of a cell that is at hand. */
export function contextOf(
  cell: Pick<CellDocument, 'quantity' | 'show'> | undefined,
  { units: system, currency = 'USD' }: BookState['head'],
): ShowContext {
  return {
    system,
    currency,
    ...(cell?.quantity === undefined ? {} : { quantity: cell.quantity }),
    ...(cell?.show === undefined ? {} : { show: cell.show }),
  };
}
