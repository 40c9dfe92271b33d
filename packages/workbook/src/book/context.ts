import { type BookState, type CellDocument, formulaOf, type Place } from '@kerfbook/document';
import { ourFunction } from '@kerfbook/functions';
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
  cell: CellDocument | undefined,
  { units: system, currency = 'USD' }: BookState['head'],
): ShowContext {
  return {
    system,
    currency,
    ...(cell?.quantity === undefined ? {} : { quantity: cell.quantity }),
    ...(cell?.show === undefined ? {} : { show: cell.show }),
    ...(isFine(cell) ? { fine: true } : {}),
  };
}

/** Whether a cell's formula is a function of ours whose result is told finely. */
function isFine(cell: CellDocument | undefined): boolean {
  if (cell?.formula === undefined || cell.show !== undefined || cell.quantity !== 'length')
    return false;
  const root = formulaOf(cell)?.root;
  return root?.kind === 'call' && ourFunction(root.name)?.result.fine === true;
}
