import type { Place } from '@kerfbook/workbook';
import { type Area, areaBetween } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import { Corner, type HandleGround } from './corner.ts';

/**
 * For fingers: the round handle at the lower right corner of what is selected. A finger that moves on cells
 * scrolls them; dragged by the handle, the selection grows (G64).
 */
export class SelectHandle {
  readonly #session: Session;
  readonly #corner: Corner;

  constructor(ground: HandleGround) {
    this.#session = ground.session;
    this.#corner = new Corner(ground, 'select-handle');
  }

  isHandle(target: EventTarget | null): boolean {
    return this.#corner.isHandle(target);
  }

  get #area(): Area | undefined {
    return this.#session.areas.at(-1);
  }

  /** Puts it where it belongs. The style shows it to fingers only. */
  place(): void {
    this.#corner.put(this.#area);
  }

  /** What a drag selects: from the corner opposite the handle to a place. */
  reach(): (place: Place) => void {
    const area = this.#area;
    const from = area === undefined ? this.#session.at : { row: area.top, column: area.left };
    return (place) => this.#session.select(areaBetween(from, place));
  }
}
