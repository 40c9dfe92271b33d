import type { Place } from '@kerfbook/workbook';
import { downAsNeighbour, fill } from '../commands/fill.ts';
import { type Area, holds } from '../session/area.ts';
import { Corner, type HandleGround } from './corner.ts';
import { cellPlace } from './highlights.ts';

/** A cell is so wide, px, where a finger has room for both handles under it. */
const ROOM = 100;

/** The small square at the corner of what is selected: dragged on, it fills (G42). */
export class FillHandle {
  readonly #ground: HandleGround;
  readonly #corner: Corner;

  constructor(ground: HandleGround) {
    this.#ground = ground;
    this.#corner = new Corner(ground, 'fill-handle');
  }

  isHandle(target: EventTarget | null): boolean {
    return this.#corner.isHandle(target);
  }

  get area(): Area | undefined {
    const { areas } = this.#ground.session;
    return areas.length === 1 ? areas[0] : undefined;
  }

  /** Puts the square where it belongs; nowhere where nothing may change. */
  place(): void {
    this.#corner.put(this.#ground.session.mayChange ? this.area : undefined);
    // Where the cell has no room for a finger beside the round handle, a finger's stands at its other corner.
    this.#corner.wearWhereNarrow('is-aside', ROOM);
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
    for (const cell of this.#ground.host.querySelectorAll('.ag-cell[col-id^="c"]')) {
      const place = cellPlace(cell, this.#ground.sheet);
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
    const to =
      this.area === undefined ? undefined : downAsNeighbour(this.#ground.session, this.area);
    if (to !== undefined) this.fill(to);
  }

  fill(to: Area | undefined): void {
    const { area } = this;
    this.preview(undefined);
    if (area !== undefined && to !== undefined) fill(this.#ground.session, area, to);
  }
}
