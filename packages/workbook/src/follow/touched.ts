import type { At, Change, Step } from '@kerfbook/document';
import type { Affected } from './affected.ts';

/**
 * What changes do to what is shown, whatever engine works the values out: cells that were written, and
 * whether more than cells has to be drawn anew (rule C1).
 */
export function addTouched(steps: readonly Step[], into: Affected): void {
  for (const step of steps) {
    const { change, before, after } = step;
    if (change.change === 'cells') addCells(step, change, into);
    else if (change.change === 'head') into.structure ||= shows(change);
    else {
      into.structure = true;
      const lines = change.list === 'rows' || change.list === 'columns';
      if (lines && change.change !== 'set') into.moved(change.sheet, before, after);
    }
  }
}

/** Amounts of money, units and what is locked show everywhere. */
const shows = ({ set }: Change & { readonly change: 'head' }): boolean =>
  set.currency !== undefined || set.locked !== undefined || set.units !== undefined;

function addCells(
  { before, after }: Step,
  { sheet: id, cells }: Change & { readonly change: 'cells' },
  into: Affected,
): void {
  const [was, is] = [before.sheet(id), after.sheet(id)];
  if (was === undefined || is === undefined) return;
  const touched: At[] = [];
  for (const one of cells) {
    const [row, column] = [is.rowIndex(one.row) ?? 0, is.columnIndex(one.column) ?? 0];
    touched.push({ sheet: id, row, column });
    if (was.cell(row, column)?.name !== is.cell(row, column)?.name) into.structure = true;
  }
  into.add(touched);
}
