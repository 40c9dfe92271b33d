import type { Place } from '@kerfbook/workbook';
import { holds } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import type { Read } from '../writing/writing.ts';
import { columnId, placeOf } from './context.ts';

/**
 * Shows on the rendered cells which are selected: a tint, and `aria-selected` on exactly those (G11).
 * Only what is on the screen is touched; a cell that scrolls in is highlighted when it is drawn.
 */
export function highlightSelection(host: HTMLElement, session: Session, sheet: string): void {
  const selection = session.at.sheet === sheet ? session.selection : undefined;
  const areas = selection?.areas ?? [];
  for (const cell of host.querySelectorAll<HTMLElement>('.ag-cell[col-id^="c"]')) {
    const place = cellPlace(cell, sheet);
    const selected = place !== undefined && areas.some((area) => holds(area, place));
    highlightCell(cell, selected);
  }
  const at = session.at;
  const within = session.areas;
  for (const head of host.querySelectorAll<HTMLElement>('.ag-header-cell[col-id^="c"]')) {
    const column = Number(head.getAttribute('col-id')?.slice(1));
    const beside = at.sheet === sheet && within.some((a) => column >= a.left && column <= a.right);
    head.classList.toggle('is-beside', beside);
  }
  for (const head of host.querySelectorAll<HTMLElement>('.ag-cell.row-number')) {
    const row = rowOf(head) ?? -1;
    const beside = at.sheet === sheet && within.some((a) => row >= a.top && row <= a.bottom);
    head.classList.toggle('is-beside', beside);
  }
}

/** Cells that were cut or copied, until they have arrived: a dashed edge. */
export function highlightLeaving(host: HTMLElement, session: Session, sheet: string): void {
  const { block } = session.state.value;
  for (const cell of host.querySelectorAll<HTMLElement>('.ag-cell[col-id^="c"]')) {
    const place = cellPlace(cell, sheet);
    cell.classList.toggle(
      'is-leaving',
      block?.sheet === sheet && place !== undefined && holds(block.area, place),
    );
  }
}

/** Outlines the cells of references, each with its number: hue, dash and number tell them apart. */
export function highlightReads(host: HTMLElement, sheet: string, reads: readonly Read[]): void {
  const here = reads.map((read, i) => ({ ...read, i })).filter((read) => read.sheet === sheet);
  for (const cell of host.querySelectorAll<HTMLElement>('.ag-cell[col-id^="c"]')) {
    const place = here.length === 0 ? undefined : cellPlace(cell, sheet);
    const read = place && here.find(({ area }) => holds(area, place));
    if (read === undefined) delete cell.dataset.read;
    else {
      cell.dataset.read = String(read.i + 1);
      cell.dataset.hue = String(read.i % 4);
    }
  }
}

/** Shows of one drawn cell whether it is selected. */
export function highlightCell(cell: HTMLElement, selected: boolean): void {
  if (cell.classList.contains('is-selected') === selected) return;
  cell.classList.toggle('is-selected', selected);
  if (selected) cell.setAttribute('aria-selected', 'true');
  else cell.removeAttribute('aria-selected');
}

/** The place of a cell's element; undefined for any other. */
export function cellPlace(cell: Element, sheet: string) {
  return placeOf(sheet, rowOf(cell), cell.getAttribute('col-id') ?? undefined);
}

/** The sheet's row that an element of the grid stands in; where it is drawn is another matter. */
export function rowOf(element: Element): number | undefined {
  const row = element.closest('.ag-row')?.getAttribute('row-id') ?? '';
  return /^\d+$/.test(row) ? Number(row) : undefined;
}

/** The drawn cell of a place; null where it is not drawn. */
export function cellElement(host: HTMLElement, { row, column }: Place): HTMLElement | null {
  return host.querySelector(`.ag-row[row-id="${row}"] .ag-cell[col-id="${columnId(column)}"]`);
}

/** The cell that an element is or stands in. */
export const cellAround = (target: EventTarget | null): Element | null =>
  target instanceof Element ? target.closest('.ag-cell[col-id^="c"]') : null;

/** Whether a press here goes to another cell than the one being written. */
export function leavesEntry(target: EventTarget | null): boolean {
  const cell = cellAround(target);
  return cell !== null && !cell.classList.contains('ag-cell-inline-editing');
}
