import { type Edit, LIMITS, refuse } from '@kerfbook/document';
import type { Desk, Refusal } from './desk.ts';

/** `groupRows`: says which groups rows are in; nothing is hidden by it, and no value changes. */
export function groupRows(desk: Desk, edit: Edit & { do: 'groupRows' }): Refusal {
  const sheet = desk.state.sheet(edit.sheet);
  if (sheet === undefined) return refuse('W1', edit.sheet);
  for (const { row, group } of edit.rows) {
    if (sheet.rows[row] === undefined) return refuse('W9', `row ${row + 1}`);
    if (!Number.isInteger(group) || group < 0)
      return refuse('W12', `row ${row + 1}`, 'no such group');
    if (group > LIMITS.groups) return refuse('W17', LIMITS.groups);
  }
  const last = new Map(edit.rows.map(({ row, group }) => [row, group]));
  const byGroup = new Map<number, string[]>();
  for (const [row, group] of last) {
    const line = sheet.rows[row];
    if (line === undefined || (line.group ?? 0) === group) continue;
    const ids = byGroup.get(group);
    if (ids === undefined) byGroup.set(group, [line.id]);
    else ids.push(line.id);
  }
  for (const [group, ids] of byGroup) {
    const set = { group: group === 0 ? null : group };
    desk.change({ change: 'set', list: 'rows', sheet: sheet.id, ids, set });
  }
  return undefined;
}
