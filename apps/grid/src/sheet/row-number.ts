import type { RowGroup } from '@kerfbook/workbook';
import { depthOf, groupInWords, headOf } from '../commands/groups.ts';

/** The groups by the rows that head them; of several, the outermost. */
export function groupsByHead(groups: readonly RowGroup[]): ReadonlyMap<number, RowGroup> {
  const heads = new Map<number, RowGroup>();
  for (const group of groups) if (!heads.has(headOf(group))) heads.set(headOf(group), group);
  return heads;
}

/** A row's number, and before it, where the row heads a group, what folds it away or opens it. */
export function rowNumber(row: number, group: RowGroup | undefined): HTMLElement | string {
  const number = String(row + 1);
  if (group === undefined) return number;
  const turn = document.createElement('button');
  turn.type = 'button';
  // The menu of the row does the same by key.
  turn.tabIndex = -1;
  turn.className = group.folded ? 'group-turn is-folded' : 'group-turn';
  turn.dataset.head = String(row);
  const says = `${group.folded ? 'Unfold' : 'Fold'} ${groupInWords(group)}`;
  turn.setAttribute('aria-label', says);
  turn.title = says;
  const whole = document.createElement('span');
  whole.append(turn, number);
  return whole;
}

/** How deep a row is in groups, as a class of its number. */
export function depthClass(row: number, groups: readonly RowGroup[]): string[] {
  const depth = depthOf(groups, row);
  return depth === 0 ? [] : [`is-in-group-${depth}`];
}
