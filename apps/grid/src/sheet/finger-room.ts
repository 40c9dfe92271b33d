import type { Place } from '@kerfbook/workbook';
import { cellElement } from './highlights.ts';

/** Whether the page is used with fingers. */
export const TOUCH = window.matchMedia('(pointer: coarse)');

/** So far the handles at a cell's corner hang over it, px. */
const OVER = 24;

/**
 * For fingers: scrolls on until what hangs over the corner of a cell in view is in view as well. What is pinned
 * stays, and a column that has no room for it keeps its start in sight.
 */
export function leaveRoom(host: HTMLElement, place: Place): void {
  if (!TOUCH.matches) return;
  const cell = cellElement(host, place);
  const view = host.querySelector('.ag-grid-viewport, .ag-body-viewport');
  if (cell === null || view === null) return;
  const [box, frame] = [cell.getBoundingClientRect(), view.getBoundingClientRect()];
  const down = box.bottom + OVER - frame.top - view.clientHeight;
  if (down > 0 && cell.closest('.ag-row-pinned') === null) view.scrollTop += down;
  const pinned = cell.closest('.ag-row')?.querySelector('.ag-grid-pinned-left-cells');
  if (pinned?.contains(cell) !== false) return;
  const room = box.left - pinned.getBoundingClientRect().right;
  const across = box.right + OVER - frame.left - view.clientWidth;
  if (across > 0 && room >= across) view.scrollLeft += across;
}
