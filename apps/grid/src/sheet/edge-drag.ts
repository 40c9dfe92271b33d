import type { Place } from '@kerfbook/workbook';
import { dropCells } from '../commands/clipboard.ts';
import { type Area, columnsOf, holds, rowsOf, within } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import { cellElement, cellPlace } from './highlights.ts';

/** How near to the edge of what is selected the pointer takes hold of it, px. */
const EDGE = 4;

interface Point {
  readonly clientX: number;
  readonly clientY: number;
  readonly target: EventTarget | null;
}

/**
 * Takes what is selected by its edge: the cells go where they are dropped, formulas that use them following,
 * as cut and pasted ones do; with Ctrl or Alt held they stay and are copied (G41).
 */
export class EdgeDrag {
  readonly #host: HTMLElement;
  readonly #session: Session;
  readonly #sheet: string;

  constructor(host: HTMLElement, session: Session, sheet: string) {
    this.#host = host;
    this.#session = session;
    this.#sheet = sheet;
  }

  /** The cells that would be taken: one area, as far as the sheet goes. */
  get #area(): Area | undefined {
    const { areas, book, at, mayChange, editing } = this.#session;
    const [area, ...more] = areas;
    const { rows = 0, columns = 0 } = book.sheet(this.#sheet) ?? {};
    if (area === undefined || more.length > 0 || !mayChange) return undefined;
    if (editing !== undefined || at.sheet !== this.#sheet) return undefined;
    return within(area, rows, columns);
  }

  /** Where the pointer has hold of the edge: the cell under it; undefined where it has not. */
  holdsAt({ clientX: x, clientY: y, target }: Point): Place | undefined {
    const area = this.#area;
    if (area === undefined || !(target instanceof Element)) return undefined;
    // What else stands in a cell has its own press.
    if (!target.matches('.ag-cell, .cell-words, .cell-words *')) return undefined;
    const cell = target.closest('.ag-cell');
    const place = cell === null ? undefined : cellPlace(cell, this.#sheet);
    if (cell === null || place === undefined || !holds(area, place)) return undefined;
    const box = cell.getBoundingClientRect();
    const near =
      (place.column === area.left && x - box.left < EDGE) ||
      (place.column === area.right && box.right - x < EDGE) ||
      (place.row === area.top && y - box.top < EDGE) ||
      (place.row === area.bottom && box.bottom - y < EDGE);
    return near ? place : undefined;
  }

  /** Shows by the pointer's shape that the edge can be taken. */
  hover(point: Point): void {
    this.#host.classList.toggle('is-on-edge', this.holdsAt(point) !== undefined);
  }

  /** Where the taken cells would stand. */
  target(from: Place, place: Place): Area | undefined {
    const area = this.#area;
    if (area === undefined) return undefined;
    const top = Math.max(0, area.top + place.row - from.row);
    const left = Math.max(0, area.left + place.column - from.column);
    return { top, left, bottom: top + rowsOf(area) - 1, right: left + columnsOf(area) - 1 };
  }

  /** Shows where the cells would go, and whether they are copied there. */
  preview(to: Area | undefined, copies = false): void {
    this.#host.classList.toggle('is-dropping-copies', to !== undefined && copies);
    for (const cell of this.#host.querySelectorAll('.is-dropping')) {
      cell.classList.remove('is-dropping');
    }
    if (to === undefined) return;
    for (let row = to.top; row <= to.bottom; row += 1) {
      for (let column = to.left; column <= to.right; column += 1) {
        // Only the edge: what is inside can be seen through it.
        const edge =
          row === to.top || row === to.bottom || column === to.left || column === to.right;
        if (edge) cellElement(this.#host, { row, column })?.classList.add('is-dropping');
      }
    }
  }

  drop(to: Area, copies: boolean): void {
    const area = this.#area;
    if (area === undefined || (to.top === area.top && to.left === area.left)) return;
    void dropCells(this.#session, area, to, copies);
  }
}
