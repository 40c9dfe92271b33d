import type { Area } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import { cellElement } from './highlights.ts';

/** The sheet that a handle is on, as it is drawn and as it is worked on. */
export interface HandleGround {
  readonly host: HTMLElement;
  readonly session: Session;
  readonly sheet: string;
}

/**
 * A sign at the lower right corner of an area that is dragged. It stands in the corner's own cell, so that nothing
 * has to be measured when the selection moves.
 */
export class Corner {
  readonly #ground: HandleGround;
  readonly #element = document.createElement('span');

  constructor(ground: HandleGround, className: string) {
    this.#ground = ground;
    this.#element.className = className;
    this.#element.setAttribute('aria-hidden', 'true');
  }

  isHandle(target: EventTarget | null): boolean {
    return target === this.#element;
  }

  /** Puts it where it belongs; nowhere without an area, on another sheet, and while something is written. */
  put(area: Area | undefined): void {
    const { host, session, sheet } = this.#ground;
    const isShown = session.editing === undefined && session.at.sheet === sheet;
    const corner =
      area === undefined || !isShown
        ? null
        : cellElement(host, { row: area.bottom, column: area.right });
    if (corner === null) this.#element.remove();
    else if (this.#element.parentElement !== corner) corner.append(this.#element);
  }

  /** Wears a class where the cell it stands in is narrower than so many px. */
  wearWhereNarrow(className: string, width: number): void {
    const corner = this.#element.parentElement;
    if (corner === null) return;
    this.#element.classList.toggle(className, Number.parseFloat(corner.style.width) < width);
  }
}
