import { columnName } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';
import type { MenuState } from '../session/types.ts';
import { columnId } from './context.ts';
import { rowOf } from './highlights.ts';

/**
 * The small key on the head of a column and beside the number of a row that opens their menu: on the head that
 * is pointed at, and for fingers on the head of the column that is selected whole. One of each is moved about:
 * a key on every head would be made with every row that scrolls in.
 */
export class HeadKey {
  readonly #session: Session;
  readonly #element = document.createElement('button');

  constructor(session: Session) {
    this.#session = session;
    const key = this.#element;
    key.type = 'button';
    key.className = 'head-key';
    // The menu opens by key on what is selected: Shift and Space, Shift and F10.
    key.tabIndex = -1;
    key.setAttribute('aria-hidden', 'true');
  }

  isKey(target: EventTarget | null): boolean {
    return target === this.#element;
  }

  /** Follows the pointer from head to head, and is gone beside them. */
  follow(target: EventTarget | null): void {
    const head = this.#session.mayChange && target instanceof Element ? headAround(target) : null;
    if (head === this.#element.parentElement || this.isKey(target)) return;
    if (head === null) this.#element.remove();
    else this.put(head);
  }

  put(head: Element): void {
    const column = columnOf(head);
    const says = `Menu of ${
      column === undefined ? `row ${(rowOf(head) ?? 0) + 1}` : `column ${columnName(column)}`
    }`;
    this.#element.title = says;
    head.append(this.#element);
  }

  /** Opens the menu under the key. */
  open(of: MenuState['of']): void {
    const { left, bottom } = this.#element.getBoundingClientRect();
    this.#session.openMenu({ x: left, y: bottom, of: of ?? 'cells' });
  }
}

/** The head of a column or a row that an element is or stands in. */
const headAround = (target: Element): Element | null =>
  target.closest('.ag-header-cell[col-id^="c"], .ag-cell.row-number');

function columnOf(head: Element): number | undefined {
  const id = head.getAttribute('col-id') ?? '';
  const column = Number(id.slice(1));
  return id === columnId(column) ? column : undefined;
}
