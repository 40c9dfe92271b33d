import type { ICellRendererComp, ICellRendererParams } from 'ag-grid-community';
import { type GridContext, placeOf } from './context.ts';
import { dress } from './face.ts';

/** Shows a cell of the open workbook in the grid's element. */
export class CellRenderer implements ICellRendererComp {
  readonly #inner = document.createElement('span');
  #outer: HTMLElement | undefined;

  init(params: ICellRendererParams): void {
    this.#inner.className = 'cell-words';
    this.#draw(params);
  }

  getGui(): HTMLElement {
    return this.#inner;
  }

  refresh(params: ICellRendererParams): boolean {
    this.#draw(params);
    return true;
  }

  #draw(params: ICellRendererParams): void {
    this.#outer = params.eGridCell ?? this.#outer;
    const { session, sheet } = params.context as GridContext;
    const at = placeOf(sheet, params.data?.index, params.column?.getColId());
    if (at === undefined || this.#outer === undefined) return;
    dress(this.#outer, this.#inner, session.book.cell(at), session);
  }
}
