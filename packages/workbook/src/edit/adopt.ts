import { type At, type Change, cellsByIds, checksByIds } from '@kerfbook/document';
import type { Desk } from './desk.ts';

/**
 * Turns references by address that an edit brought, or whose sheet, row or column it made, into ids
 * (rule F7): opened again, they would be.
 */
export function adoptLoose(desk: Desk): void {
  const changes = desk.steps.map(({ change }) => change);
  if (changes.some(makesPlaces)) {
    desk.change(...cellsByIds(desk.state));
    desk.change(...checksByIds(desk.state));
    return;
  }
  const cells = changes.flatMap((change) =>
    change.change === 'cells' ? formulasIn(desk, change) : [],
  );
  if (cells.length > 0) desk.change(...cellsByIds(desk.state, cells));
  if (changes.some(isOfChecks)) desk.change(...checksByIds(desk.state));
}

/** Whether something is there now that a reference may have waited for. */
function makesPlaces(change: Change): boolean {
  if (change.change === 'insert') return change.list !== 'checks' && change.list !== 'tables';
  return change.change === 'set' && change.list === 'sheets' && change.set.name !== undefined;
}

const isOfChecks = (change: Change): boolean =>
  'list' in change && change.list === 'checks' && change.change !== 'remove';

function formulasIn({ state }: Desk, { sheet, cells }: Change & { change: 'cells' }): At[] {
  return cells.flatMap(({ row, column, cell }) => {
    if (cell?.formula === undefined) return [];
    const [at, across] = [state.rowIndex(sheet, row), state.columnIndex(sheet, column)];
    return at === undefined || across === undefined ? [] : { sheet, row: at, column: across };
  });
}
