/**
 * Where what can be seen of the sheet ends. Keeps `--view-end` on the grid: how far along the sheet that is, px. Words
 * that run over end there with an ellipsis, so that none are cut off without a sign.
 */
export class ViewEnd {
  readonly #host: HTMLElement;
  readonly #observer: ResizeObserver;
  readonly #lost: () => void;
  #end = 0;
  #high = 0;

  /**
   * @param lost called where the grid became shorter and the current cell went out of sight by that: a line
   *   that comes in under the grid must not hide what is being worked on
   */
  constructor(host: HTMLElement, lost: () => void) {
    this.#host = host;
    this.#lost = lost;
    this.#observer = new ResizeObserver(() => {
      this.#measure();
      this.#lower();
    });
    this.#observer.observe(host);
    host.addEventListener('scroll', this.#measure, { capture: true, passive: true });
  }

  stop(): void {
    this.#observer.disconnect();
    this.#host.removeEventListener('scroll', this.#measure, true);
  }

  #lower(): void {
    const view = this.#host.querySelector('.ag-grid-viewport, .ag-body-viewport');
    const before = this.#high;
    this.#high = view?.clientHeight ?? 0;
    const cell = this.#host.querySelector('.ag-cell-focus')?.getBoundingClientRect();
    if (view === null || cell === undefined) return;
    // From the grid's own upper edge: that may move too, as when the pad for numbers gives the drawing its room back.
    const bottom = cell.bottom - view.getBoundingClientRect().top;
    if (bottom <= before && bottom > this.#high) this.#lost();
  }

  readonly #measure = (): void => {
    const view = this.#host.querySelector('.ag-grid-viewport, .ag-body-viewport');
    if (view === null) return;
    const end = Math.round(view.scrollLeft + view.clientWidth);
    if (end === this.#end) return;
    this.#end = end;
    this.#host.style.setProperty('--view-end', `${end}px`);
  };
}
