import type { At, Place } from '@kerfbook/workbook';
import {
  CellStyleModule,
  ClientSideRowModelModule,
  ColumnApiModule,
  CustomEditorModule,
  createGrid,
  type GridApi,
  ModuleRegistry,
  PinnedRowModule,
  RenderApiModule,
  RowApiModule,
  ScrollApiModule,
} from 'ag-grid-community';
import { copySelected, paste } from '../commands/clipboard.ts';
import { clearSelected, turnStyle } from '../commands/commands.ts';
import { fillByKey } from '../commands/fill.ts';
import { turnGroup } from '../commands/groups.ts';
import { insertLines } from '../commands/structure.ts';
import { gridIsDrawn, gridIsMade } from '../page/after-grid.ts';
import { cellsOf, holds, jump, regionAround, type Selection } from '../session/area.ts';
import { STEPS } from '../session/places.ts';
import { isFormula, mayPoint } from '../session/pointing.ts';
import { type Session, same } from '../session/session.ts';
import type { Block } from '../session/types.ts';
import { readsOf } from '../writing/writing.ts';
import { columnId, type GridContext, type Leave, placeOf } from './context.ts';
import {
  contentOf,
  type Drawn,
  drawnRows,
  type Line,
  LOOKS,
  type Size,
  sizeOf,
} from './grid-looks.ts';
import {
  cellElement,
  cellPlace,
  highlightLeaving,
  highlightReads,
  highlightSelection,
} from './highlights.ts';
import { type KeyAction, keyAction } from './keys.ts';
import { inSight, lastUsed, nextPlace, rowInSight } from './moves.ts';
import { Pointer } from './pointer.ts';
import { groupsByHead } from './row-number.ts';

ModuleRegistry.registerModules([
  ClientSideRowModelModule,
  CellStyleModule,
  ColumnApiModule,
  CustomEditorModule,
  PinnedRowModule,
  RenderApiModule,
  RowApiModule,
  ScrollApiModule,
]);

/**
 * The grid of one sheet, kept in step with the session: which cell is current and what is written is
 * the session's to know, and the grid is told. No framework in between: an edit has to be painted in
 * the next frame.
 */
export class Board {
  readonly #host: HTMLElement;
  readonly #session: Session;
  readonly #sheet: string;
  readonly #grid: GridApi<Line>;
  readonly #ends: (() => void)[] = [];
  readonly #pointer: Pointer;
  /** Whether the last press was ours, so that the mouse event that follows it is too. */
  #ours = false;
  /** Whether it pointed at cells for a formula. */
  #pointed = false;
  /** Shift was held with the paste key: values come without their formulas (G50). */
  #valuesOnly = false;
  #selection: Selection | undefined;
  #highlighted: At | undefined;
  #block: Block | undefined;
  #reads: string | undefined;
  #size: Size;
  #drawn: ReadonlyMap<number, Drawn>;
  #structures: number;

  constructor(host: HTMLElement, session: Session, sheet: string) {
    this.#host = host;
    this.#session = session;
    this.#sheet = sheet;
    this.#size = sizeOf(session.book.sheet(sheet));
    this.#drawn = drawnRows(this.#size);
    this.#structures = session.state.value.structures;
    this.#pointer = new Pointer({
      host,
      session,
      sheet,
      size: () => this.#size,
      firstShown: () => ({ row: this.#firstShown(), column: 0 }),
      show: (place) => this.#show(place),
    });
    this.#grid = createGrid<Line>(host, {
      ...LOOKS,
      ...contentOf(this.#size),
      context: { session, sheet, leave: (by) => this.#leave(by) } satisfies GridContext,
      onFirstDataRendered: () => {
        this.#showFocus(session.at);
        gridIsDrawn();
      },
      onViewportChanged: () => this.#highlightAgain(),
      onColumnResized: ({ finished, source, column }) => {
        if (finished && source === 'uiColumnResized' && column !== null) {
          this.#widen(column.getColId(), Math.round(column.getActualWidth()));
        }
      },
    });
    gridIsMade([...this.#drawn.values()].some(({ pinned }) => pinned === null));
    this.#label();
    this.#ends.push(
      session.onRepaint((cells) => this.#repaint(cells)),
      session.state.watch(() => this.#follow()),
      session.onFocusGrid(() => this.#showFocus(session.at)),
    );
    this.#hear('keydown', (event) => this.#key(event));
    // The grid moves on the pointer's press, the browser its focus on the mouse's.
    // On the document: the grid itself listens where the host does, and would stop the editor.
    this.#hearAll('pointerdown', (event) => this.#press(event));
    this.#hearAll('mousedown', (event) => this.#press(event));
    // A press that was ours is no click for the grid either: it would stop the editor.
    this.#hearAll('click', (event) => {
      if (this.#pointed) event.stopPropagation();
      this.#pointed = false;
    });
    this.#hear('focusin', (event) => this.#focused(event));
    this.#hear('copy', (event) => this.#clip(event));
    this.#hear('cut', (event) => this.#clip(event));
    this.#hear('paste', (event) => this.#clip(event));
    this.#hear('contextmenu', (event) => this.#menu(event));
    this.#hear('dblclick', (event) => {
      if (session.editing === undefined && cellAround(event.target) !== null) this.#edit('edit');
    });
  }

  destroy(): void {
    for (const end of this.#ends) end();
    this.#pointer.destroy();
    this.#grid.destroy();
  }

  #hear<K extends keyof HTMLElementEventMap>(
    type: K,
    listener: (event: HTMLElementEventMap[K]) => void,
  ): void {
    this.#host.addEventListener(type, listener, true);
    this.#ends.push(() => this.#host.removeEventListener(type, listener, true));
  }

  #hearAll<K extends 'pointerdown' | 'mousedown' | 'click'>(
    type: K,
    listener: (event: HTMLElementEventMap[K]) => void,
  ): void {
    const within = (event: HTMLElementEventMap[K]): void => {
      if (event.target instanceof Node && this.#host.contains(event.target)) listener(event);
    };
    document.addEventListener(type, within, true);
    this.#ends.push(() => document.removeEventListener(type, within, true));
  }

  /** Shows what the session has come to: its place, the sheet's size, a change of structure. */
  #follow(): void {
    const { at, editing, structures } = this.#session.state.value;
    const sheet = this.#session.book.sheet(this.#sheet);
    if (sheet === undefined || at.sheet !== this.#sheet) return;
    const size = sizeOf(sheet);
    if (!alike(size, this.#size)) {
      this.#size = size;
      this.#drawn = drawnRows(size);
      this.#grid.updateGridOptions(contentOf(size));
    }
    if (structures !== this.#structures) {
      this.#structures = structures;
      this.#label();
      this.#grid.refreshCells({ force: true });
    }
    if (editing === undefined && !this.#isFocused(at)) this.#showFocus(at);
    this.#highlight();
    this.#highlightReads();
    this.#pointer.handle.place();
  }

  /** The cells that the formula being written reads, outlined from the first letter on (G28). */
  #highlightReads(): void {
    const { editing } = this.#session;
    const text = editing !== undefined && isFormula(editing.text) ? editing.text : undefined;
    if (text === this.#reads) return;
    this.#reads = text;
    const reads = editing === undefined ? [] : readsOf(this.#session.book, editing);
    highlightReads(this.#host, this.#sheet, reads);
  }

  /** Rows that scroll in are drawn without what is written or copied being highlighted. */
  #highlightAgain(): void {
    if (this.#reads !== undefined) {
      this.#reads = undefined;
      this.#highlightReads();
    }
    if (this.#block !== undefined) highlightLeaving(this.#host, this.#session, this.#sheet);
    this.#pointer.handle.place();
  }

  #highlight(): void {
    const { at, selection, block } = this.#session.state.value;
    if (block !== this.#block) {
      this.#block = block;
      highlightLeaving(this.#host, this.#session, this.#sheet);
    }
    if (
      selection === this.#selection &&
      this.#highlighted !== undefined &&
      same(this.#highlighted, at)
    )
      return;
    this.#selection = selection;
    this.#highlighted = at;
    highlightSelection(this.#host, this.#session, this.#sheet);
  }

  #label(): void {
    const name = this.#session.book.sheet(this.#sheet)?.name ?? '';
    this.#grid.setGridAriaProperty('label', `Sheet ${name}`);
  }

  #isFocused(at: At): boolean {
    const focused = this.#grid.getFocusedCell();
    const drawn = this.#drawn.get(at.row);
    return (
      focused?.rowIndex === drawn?.index &&
      (focused?.rowPinned ?? null) === drawn?.pinned &&
      focused?.column.getColId() === columnId(at.column)
    );
  }

  /** The first row that scrolls and is in view. */
  #firstShown(): number {
    const first = this.#grid.getFirstDisplayedRowIndex();
    return this.#grid.getDisplayedRowAtIndex(first)?.data?.index ?? 0;
  }

  #showFocus(at: At): void {
    // A formula that is being written keeps the focus while its maker looks at another sheet.
    if (at.sheet !== this.#sheet || this.#session.editing !== undefined) return;
    const drawn = this.#drawn.get(at.row);
    if (drawn === undefined) return;
    this.#show(at);
    this.#grid.setFocusedCell(drawn.index, columnId(at.column), drawn.pinned);
  }

  #moveTo(at: At): void {
    this.#session.go(at);
    // At an edge, or where an editor was, the place is the same and the focus has gone.
    const onCell = document.activeElement?.classList.contains('ag-cell') === true;
    if (!onCell || !this.#isFocused(at)) this.#showFocus(at);
  }

  #leave(by: Leave): void {
    this.#grid.stopEditing(true);
    this.#moveTo(nextPlace(this.#session, by, this.#size));
  }

  #edit(mode: 'fresh' | 'edit', text?: string): void {
    if (!this.#session.begin(mode, 'cell', text)) return;
    const { row, column } = this.#session.at;
    const { index = row, pinned = null } = this.#drawn.get(row) ?? {};
    this.#grid.startEditingCell({
      rowIndex: index,
      rowPinned: pinned,
      colKey: columnId(column),
    });
  }

  #key(event: KeyboardEvent): void {
    const session = this.#session;
    if (session.editing !== undefined) return;
    this.#valuesOnly = event.shiftKey && event.key.toLowerCase() === 'v';
    const action = keyAction(event);
    if (action === undefined) return;
    if (action.do === 'type') {
      // Without preventDefault the key lands in the editor that just took the focus, whatever an
      // input method makes of it.
      this.#edit('fresh', '');
      return;
    }
    event.preventDefault();
    event.stopPropagation();
    this.#act(action);
  }

  #act(action: KeyAction): void {
    const session = this.#session;
    const { at } = session;
    switch (action.do) {
      case 'edit':
        this.#edit('edit');
        break;
      case 'clear':
        clearSelected(session);
        break;
      case 'page':
        this.#reach(this.#pageFrom(this.#lead(action.extend), action.by), action.extend);
        break;
      case 'first': {
        const lead = this.#lead(action.extend);
        this.#reach({ row: action.sheet ? 0 : lead.row, column: 0 }, action.extend);
        break;
      }
      case 'last':
        this.#reach(lastUsed(session, action.sheet), action.extend);
        break;
      case 'jump': {
        const from = { ...at, ...this.#lead(action.extend) };
        this.#reach(jump(session.book, from, STEPS[action.by], this.#size), action.extend);
        break;
      }
      case 'extend': {
        const { row, column } = this.#lead(true);
        const step = STEPS[action.by];
        this.#reach({ row: row + step.rows, column: column + step.columns }, true);
        break;
      }
      case 'move':
        this.#moveTo(nextPlace(session, action.by, this.#size));
        break;
      case 'narrow':
        session.stop();
        session.go(at);
        session.copied(undefined);
        break;
      case 'fill':
        fillByKey(session, action.by);
        break;
      case 'menu':
        this.#menuAt(session.at);
        break;
      case 'bold':
      case 'italic':
        turnStyle(session, action.do);
        break;
      case 'formulas':
        session.showFormulas();
        break;
      case 'insert':
        insertLines(session, this.#selectsColumns() ? 'column' : 'row', 'before');
        break;
      case 'remove':
        session.ask(this.#selectsColumns() ? 'removeColumns' : 'removeRows');
        break;
      case 'region':
        this.#selectRegion();
        break;
      case 'rows':
      case 'columns':
        this.#selectLines(action.do);
        break;
      default:
        break;
    }
  }

  /** Whole columns are selected, so that a key that could mean rows means columns. */
  #selectsColumns(): boolean {
    const area = this.#session.areas.at(-1);
    return area !== undefined && area.top === 0 && area.bottom >= this.#size.rows - 1;
  }

  #menu(event: MouseEvent): void {
    const cell = event.target instanceof Element ? event.target.closest('.ag-cell') : null;
    const session = this.#session;
    if (cell === null || session.editing !== undefined) return;
    event.preventDefault();
    event.stopPropagation();
    const at = this.#placeOf(cell);
    if (at !== undefined && !session.areas.some((area) => holds(area, at))) session.go(at);
    session.openMenu({ x: event.clientX, y: event.clientY });
  }

  #menuAt(place: Place): void {
    const cell = cellElement(this.#host, place);
    const { left = 100, bottom = 100 } = cell?.getBoundingClientRect() ?? {};
    this.#session.openMenu({ x: left + 8, y: bottom });
  }

  /** Where a move starts: at the far corner of what is selected when it is to grow. */
  #lead(extend: boolean): Place {
    const { selection, at } = this.#session;
    return extend ? (selection?.lead ?? at) : at;
  }

  /** Goes to a place, or selects up to it; never beyond what is offered. */
  #reach(place: Place, extend: boolean): void {
    const from = this.#lead(extend);
    const row = rowInSight(place.row, place.row < from.row ? -1 : 1, this.#size);
    const column = inSight(place.column, place.column < from.column ? -1 : 1, this.#size);
    this.#session.moved();
    if (!extend) {
      this.#moveTo({ sheet: this.#sheet, row, column });
      return;
    }
    this.#session.extendTo({ row, column });
    this.#show({ row, column });
  }

  #show({ row, column }: Place): void {
    const drawn = this.#drawn.get(row);
    if (drawn?.pinned === null) this.#grid.ensureIndexVisible(drawn.index);
    this.#grid.ensureColumnVisible(columnId(column));
  }

  /** The filled cells around the current one, and when they are selected already, all (G12). */
  #selectRegion(): void {
    const session = this.#session;
    const region = regionAround(session.book, session.at);
    const [selected] = session.areas;
    const again =
      selected !== undefined &&
      cellsOf(selected) > 1 &&
      JSON.stringify(selected) === JSON.stringify(region);
    const whole = { top: 0, left: 0, bottom: this.#size.rows - 1, right: this.#size.columns - 1 };
    session.select(again || cellsOf(region) === 1 ? whole : region);
  }

  /** Whole rows or columns of what is selected. */
  #selectLines(kind: 'rows' | 'columns'): void {
    const session = this.#session;
    const area = session.areas.at(-1);
    if (area === undefined) return;
    session.select(
      kind === 'rows'
        ? { ...area, left: 0, right: this.#size.columns - 1 }
        : { ...area, top: 0, bottom: this.#size.rows - 1 },
    );
  }

  /** Copy, cut and paste come as events of the page: no permission is asked for. */
  #clip(event: ClipboardEvent): void {
    const session = this.#session;
    const { clipboardData } = event;
    if (session.editing !== undefined || clipboardData === null) return;
    event.preventDefault();
    if (event.type === 'paste')
      void paste(session, clipboardData, this.#valuesOnly ? 'values' : 'all');
    else if (event.type === 'copy' || session.mayChange) {
      copySelected(session, clipboardData, event.type === 'cut');
    }
    this.#valuesOnly = false;
  }

  #press(event: MouseEvent): void {
    const session = this.#session;
    session.moved();
    if (session.editing === undefined && this.#turnsGroup(event)) return;
    if (session.editing === undefined) {
      const ours = event instanceof PointerEvent ? this.#pointer.press(event) : this.#ours;
      this.#ours = ours;
      if (!ours) return;
      event.preventDefault();
      event.stopPropagation();
      this.#showFocus(session.at);
      return;
    }
    // Words selected with the pointer in the cell being written stay being written.
    if (!leavesEntry(event.target)) return;
    if (mayPoint(session)) {
      // The editor keeps the focus: cells are pointed at, not gone to (G27).
      event.preventDefault();
      event.stopPropagation();
      this.#pointed = true;
      if (event instanceof PointerEvent) this.#pointer.point(event);
      return;
    }
    if (session.commit()) {
      this.#grid.stopEditing(true);
      return;
    }
    event.preventDefault();
    event.stopPropagation();
  }

  /** Whether a press is on what folds a group of rows away or opens it. */
  #turnsGroup(event: MouseEvent): boolean {
    const turn = event.target instanceof Element ? event.target.closest('.group-turn') : null;
    if (!(turn instanceof HTMLElement)) return false;
    event.preventDefault();
    event.stopPropagation();
    const group = groupsByHead(this.#size.groups).get(Number(turn.dataset.head));
    if (event.type === 'pointerdown' && event.button === 0 && group !== undefined) {
      turnGroup(this.#session, group);
    }
    return true;
  }

  /** The grid tells of focus late, when the maker may be elsewhere; the page tells at once. */
  #focused(event: FocusEvent): void {
    const at = this.#placeOf(event.target);
    if (at === undefined || this.#session.editing?.from === 'cell') return;
    // What is selected stays while the focus comes back to its cell.
    if (!same(at, this.#session.at)) this.#session.go(at);
  }

  /** The place of an element that is a cell; an editor within one is none. */
  #placeOf(target: EventTarget | null): At | undefined {
    if (!(target instanceof Element) || !target.classList.contains('ag-cell')) return undefined;
    return cellPlace(target, this.#sheet);
  }

  #pageFrom({ row, column }: Place, by: 1 | -1): Place {
    const viewport = this.#host.querySelector('.ag-grid-viewport, .ag-body-viewport');
    const lines = Math.max(1, Math.floor((viewport?.clientHeight ?? 560) / 28) - 2);
    return { row: row + by * lines, column };
  }

  #widen(colId: string, width: number): void {
    const at = placeOf(this.#sheet, 0, colId);
    const { columns = 0 } = this.#session.book.sheet(this.#sheet) ?? {};
    if (at === undefined || at.column >= columns) return;
    this.#session.apply({ do: 'setColumn', sheet: this.#sheet, column: at.column, width });
  }

  /** Paints exactly those of the cells that are on the screen. */
  #repaint(cells: readonly At[]): void {
    const rows = new Map<number, string[]>();
    for (const at of cells) {
      if (at.sheet !== this.#sheet) continue;
      const columns = rows.get(at.row);
      if (columns === undefined) rows.set(at.row, [columnId(at.column)]);
      else columns.push(columnId(at.column));
    }
    if (rows.size === 0) return;
    for (const node of this.#drawnNodes()) {
      const columns = rows.get(node.data?.index ?? -1);
      if (columns !== undefined) {
        this.#grid.refreshCells({ rowNodes: [node], columns, force: true });
      }
    }
  }

  #drawnNodes() {
    const grid = this.#grid;
    const above = Array.from({ length: grid.getPinnedTopRowCount() }, (_, i) =>
      grid.getPinnedTopRow(i),
    ).filter((node) => node !== undefined);
    return [...above, ...grid.getRenderedNodes()];
  }
}

const alike = (a: Size, b: Size): boolean =>
  a.rows === b.rows &&
  a.columns === b.columns &&
  a.widths.length === b.widths.length &&
  a.frozenColumns === b.frozenColumns &&
  a.frozenRows === b.frozenRows &&
  a.hidden.join() === b.hidden.join() &&
  a.hiddenRows.join() === b.hiddenRows.join() &&
  JSON.stringify(a.groups) === JSON.stringify(b.groups) &&
  a.widths.every((width, column) => width === b.widths[column]);

const cellAround = (target: EventTarget | null): Element | null =>
  target instanceof Element ? target.closest('.ag-cell[col-id^="c"]') : null;

/** Whether a press here goes to another cell than the one being written. */
function leavesEntry(target: EventTarget | null): boolean {
  const cell = cellAround(target);
  return cell !== null && !cell.classList.contains('ag-cell-inline-editing');
}
