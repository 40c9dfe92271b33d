import type { Place } from '@kerfbook/workbook';
import { downAsNeighbour, fill } from '../commands/fill.ts';
import { type Area, holds } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import { cellElement, cellPlace } from './highlights.ts';

/** A cell is so wide, px, where a finger has room for both handles under it. */
const ROOM = 100;

/**
 * The small square at the corner of what is selected: dragged on, it fills (G42). It stands in the
 * corner's own cell, so that nothing has to be measured when the selection moves.
 */
export class FillHandle {
  readonly #host: HTMLElement;
  readonly #session: Session;
  readonly #sheet: string;
  readonly #element = document.createElement('span');

  constructor(host: HTMLElement, session: Session, sheet: string) {
    this.#host = host;
    this.#session = session;
    this.#sheet = sheet;
    this.#element.className = 'fill-handle';
    this.#element.setAttribute('aria-hidden', 'true');
  }

  isHandle(target: EventTarget | null): boolean {
    return target === this.#element;
  }

  get area(): Area | undefined {
    const { areas } = this.#session;
    return areas.length === 1 ? areas[0] : undefined;
  }

  /** Puts the square where it belongs; nowhere while something is written or nothing may change. */
  place(): void {
    const session = this.#session;
    const { area } = this;
    const shown =
      area !== undefined &&
      session.mayChange &&
      session.at.sheet === this.#sheet &&
      session.editing === undefined;
    const corner = shown ? cellElement(this.#host, { row: area.bottom, column: area.right }) : null;
    if (corner === null) this.#element.remove();
    else {
      // Where the cell has no room for a finger beside the round handle, a finger's stands at its other corner.
      this.#element.classList.toggle('is-aside', Number.parseFloat(corner.style.width) < ROOM);
      if (this.#element.parentElement !== corner) corner.append(this.#element);
    }
  }

  /** The area a drag to a place would fill: on from the selection in one direction. */
  reach(place: Place): Area | undefined {
    const { area } = this;
    if (area === undefined || holds(area, place)) return undefined;
    const away = {
      down: place.row - area.bottom,
      up: area.top - place.row,
      right: place.column - area.right,
      left: area.left - place.column,
    };
    const furthest = (Object.keys(away) as (keyof typeof away)[]).reduce((a, b) =>
      away[b] > away[a] ? b : a,
    );
    switch (furthest) {
      case 'down':
        return { ...area, bottom: place.row };
      case 'up':
        return { ...area, top: place.row };
      case 'right':
        return { ...area, right: place.column };
      case 'left':
        return { ...area, left: place.column };
    }
  }

  /** Shows what would be filled. */
  preview(to: Area | undefined): void {
    for (const cell of this.#host.querySelectorAll('.ag-cell[col-id^="c"]')) {
      const place = cellPlace(cell, this.#sheet);
      const filled =
        to !== undefined &&
        place !== undefined &&
        holds(to, place) &&
        this.area !== undefined &&
        !holds(this.area, place);
      cell.classList.toggle('is-filling', filled);
    }
  }

  /** Fills as far down as the column beside it goes, over nothing that stands there. */
  fillDown(): void {
    const to = this.area === undefined ? undefined : downAsNeighbour(this.#session, this.area);
    if (to !== undefined) this.fill(to);
  }

  fill(to: Area | undefined): void {
    const { area } = this;
    this.preview(undefined);
    if (area !== undefined && to !== undefined) fill(this.#session, area, to);
  }
}
