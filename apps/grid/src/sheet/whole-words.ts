import type { CellView } from '@kerfbook/workbook';
import { saidByWords } from '../page/words-for.ts';
import type { Session } from '../session/session.ts';
import { cellElement, cellPlace } from './highlights.ts';

/** Cells rest when they have not been scrolled for so long, ms. */
const AT_REST = 120;

/**
 * Words that are cut off in their cell, whole while it is the current one, and what an error says that has room for
 * its sign alone: under the cell, or over it where a
 * number would be covered, or nowhere where either would cover one; the line above the grid has them too.
 */
export class WholeWords {
  readonly #host: HTMLElement;
  readonly #session: Session;
  readonly #sheet: string;
  readonly #element = document.createElement('span');
  #frame = 0;
  #rest = 0;

  constructor(host: HTMLElement, session: Session, sheet: string) {
    this.#host = host;
    this.#session = session;
    this.#sheet = sheet;
    this.#element.className = 'whole-words';
    // The cell itself says all of it to a screen reader.
    this.#element.setAttribute('aria-hidden', 'true');
    host.addEventListener('scroll', this.#scrolled, { capture: true, passive: true });
  }

  stop(): void {
    this.#hide();
    this.#host.removeEventListener('scroll', this.#scrolled, true);
  }

  #hide(): void {
    this.#element.remove();
    cancelAnimationFrame(this.#frame);
    clearTimeout(this.#rest);
  }

  /**
   * It stands over the cells and does not go along with them, so it waits until they rest. Going to a cell that is
   * out of sight scrolls too, and the last of that may be told after the cell is drawn.
   */
  readonly #scrolled = (): void => {
    this.#hide();
    this.#rest = window.setTimeout(() => this.follow(), AT_REST);
  };

  /** Looks at the current cell once it is drawn. */
  follow(): void {
    this.#hide();
    this.#frame = requestAnimationFrame(() => this.#show());
  }

  #show(): void {
    const { at, editing, selection, book } = this.#session;
    if (editing !== undefined || selection !== undefined || at.sheet !== this.#sheet) return;
    const cell = cellElement(this.#host, at);
    const words = cell?.querySelector<HTMLElement>('.cell-words');
    if (cell === null || words === null || words === undefined) return;
    const says = this.#saysOf(book.cell(at), words);
    if (says === undefined) return;
    const element = this.#element;
    element.textContent = says;
    const { style } = element;
    const host = this.#host.getBoundingClientRect();
    const box = cell.getBoundingClientRect();
    this.#host.append(element);
    const left = Math.min(box.left - host.left, host.width - element.offsetWidth - 4);
    style.insetInlineStart = `${Math.max(4, left)}px`;
    for (const top of [box.bottom - host.top + 1, box.top - host.top - element.offsetHeight - 1]) {
      style.insetBlockStart = `${top}px`;
      if (!this.#covers()) return;
    }
    element.remove();
  }

  #saysOf({ value, shown }: CellView, words: HTMLElement): string | undefined {
    if (value.kind === 'error') {
      if (words.dataset.short === undefined) return undefined;
      return `${value.error.word} ${saidByWords(value.error, this.#session.book)}`;
    }
    return value.kind === 'text' && isCutOff(words) ? shown.text : undefined;
  }

  /** Whether it lies over a number, or beyond what can be seen of the grid. */
  #covers(): boolean {
    const { left, right, top, bottom } = this.#element.getBoundingClientRect();
    const view = this.#host.getBoundingClientRect();
    if (top < view.top || bottom > view.bottom) return true;
    return [...this.#host.querySelectorAll('.ag-cell[col-id^="c"]')].some((cell) => {
      const box = cell.getBoundingClientRect();
      if (box.left >= right || box.right <= left || box.top >= bottom || box.bottom <= top) {
        return false;
      }
      const place = cellPlace(cell, this.#sheet);
      if (place === undefined) return false;
      const { kind } = this.#session.book.value(place);
      return kind !== 'text' && kind !== 'empty';
    });
  }
}

/** At their end, or after the two lines that a row for a finger has room for. */
const isCutOff = (words: HTMLElement): boolean =>
  words.scrollWidth > words.clientWidth || words.scrollHeight > words.clientHeight + 1;
