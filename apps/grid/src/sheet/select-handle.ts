import type { Place } from '@kerfbook/workbook';
import { type Area, areaBetween } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import { cellElement } from './highlights.ts';

/**
 * For fingers: the round handle at the lower right corner of what is selected. A finger that moves on cells
 * scrolls them; dragged by the handle, the selection grows (G64).
 */
export class SelectHandle {
  readonly #host: HTMLElement;
  readonly #session: Session;
  readonly #sheet: string;
  readonly #element = document.createElement('span');

  constructor(host: HTMLElement, session: Session, sheet: string) {
    this.#host = host;
    this.#session = session;
    this.#sheet = sheet;
    this.#element.className = 'select-handle';
    this.#element.setAttribute('aria-hidden', 'true');
  }

  isHandle(target: EventTarget | null): boolean {
    return target === this.#element;
  }

  get #area(): Area | undefined {
    return this.#session.areas.at(-1);
  }

  /** Puts it where it belongs; nowhere while something is written. The style shows it to fingers only. */
  place(): void {
    const { at, editing } = this.#session;
    const area = editing === undefined && at.sheet === this.#sheet ? this.#area : undefined;
    const corner =
      area === undefined ? null : cellElement(this.#host, { row: area.bottom, column: area.right });
    if (corner === null) this.#element.remove();
    else if (this.#element.parentElement !== corner) corner.append(this.#element);
  }

  /** What a drag selects: from the corner opposite the handle to a place. */
  reach(): (place: Place) => void {
    const area = this.#area;
    const from = area === undefined ? this.#session.at : { row: area.top, column: area.left };
    return (place) => this.#session.select(areaBetween(from, place));
  }
}
