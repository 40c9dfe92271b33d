import type { ICellRendererComp, ICellRendererParams } from 'ag-grid-community';
import { type GridContext, placeOf } from './context.ts';
import { dress } from './face.ts';

/** Shows a cell of the open workbook in the grid's element. */
export class CellRenderer implements ICellRendererComp {
  #words: HTMLElement | undefined;
  #outer: HTMLElement | undefined;
  /** The grid was handed no words, so that it takes none away. */
  #added = false;

  init(params: ICellRendererParams): void {
    this.#draw(params);
  }

  getGui(): HTMLElement {
    // An empty cell has none, which the grid takes for what it is; its types do not say so.
    return this.#words as HTMLElement;
  }

  refresh(params: ICellRendererParams): boolean {
    const before = this.#words;
    this.#draw(params);
    if (before === undefined && this.#words !== undefined) {
      this.#outer?.prepend(this.#words);
      this.#added = true;
    }
    return true;
  }

  destroy(): void {
    if (this.#added) this.#words?.remove();
  }

  #draw(params: ICellRendererParams): void {
    this.#outer = params.eGridCell ?? this.#outer;
    const { session, sheet, remark } = params.context as GridContext;
    const at = placeOf(sheet, params.data?.index, params.column?.getColId());
    if (at === undefined || this.#outer === undefined) return;
    const width = params.column?.getActualWidth();
    const cell = session.book.cell(at);
    this.#words = dress(this.#outer, this.#words, cell, session, width, remark(at));
  }
}
