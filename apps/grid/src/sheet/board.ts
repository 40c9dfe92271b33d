import type { At, Place } from '@kerfbook/workbook';
import { createGrid, type GridApi } from 'ag-grid-community';
import { copySelected, paste } from '../commands/clipboard.ts';
import { clearSelected, selectsWhole, turnStyle } from '../commands/commands.ts';
import { fillByKey } from '../commands/fill.ts';
import { turnGroup } from '../commands/groups.ts';
import { insertLines } from '../commands/structure.ts';
import { enterToday, numbersBeside, sumSelected } from '../commands/usual.ts';
import { gridIsDrawn, gridIsMade } from '../page/after-grid.ts';
import { keepsKeys } from '../page/keeps-keys.ts';
import { jump, type Selection } from '../session/area.ts';
import { STEPS } from '../session/places.ts';
import { isFormula, mayPoint } from '../session/pointing.ts';
import { type Session, same } from '../session/session.ts';
import type { Block } from '../session/types.ts';
import { readsOf } from '../writing/writing.ts';
import { columnId, type GridContext, type Leave } from './context.ts';
import { leaveRoom, TOUCH } from './finger-room.ts';
import {
  alike,
  contentOf,
  type Drawn,
  drawnRows,
  type Line,
  LOOKS,
  type Size,
  sizeOf,
} from './grid-looks.ts';
import { HeadKey } from './head-key.ts';
import {
  cellAround,
  cellElement,
  cellPlace,
  highlightLeaving,
  highlightReads,
  highlightSelection,
  leavesEntry,
} from './highlights.ts';
import { type KeyAction, keyAction } from './keys.ts';
import { aPageFrom, firstShown, selectRegion, showLineStart, widen } from './lines.ts';
import { inSight, lastUsed, nextPlace, rowInSight } from './moves.ts';
import { paintCells } from './paint.ts';
import { Pointer } from './pointer.ts';
import { withAligned } from './points.ts';
import { PullKeys } from './pull-hands.ts';
import { RowHeights } from './row-heights.ts';
import { groupsByHead } from './row-number.ts';
import { ViewEnd } from './view-end.ts';
import { WholeWords } from './whole-words.ts';

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
  readonly #pull: PullKeys;
  readonly #headKey: HeadKey;
  readonly #whole: WholeWords;
  readonly #heights: RowHeights;
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
    this.#pull = new PullKeys(session);
    this.#headKey = new HeadKey(session);
    this.#whole = new WholeWords(host, session, sheet);
    this.#pointer = new Pointer({
      host,
      session,
      sheet,
      size: () => this.#size,
      firstShown: () => ({ row: firstShown(this.#grid), column: 0 }),
      show: (place) => this.#show(place),
    });
    // Not there yet while the grid is made.
    let heights: RowHeights | undefined;
    this.#grid = createGrid<Line>(host, {
      ...LOOKS,
      ...contentOf(this.#size),
      context: {
        session,
        sheet,
        leave: (by) => this.#leave(by),
        remark: (at) => heights?.remark(at),
      } satisfies GridContext,
      onFirstDataRendered: () => {
        if (!keepsKeys()) this.#showFocus(session.at);
        gridIsDrawn();
      },
      onViewportChanged: () => this.#highlightAgain(),
      onColumnResized: ({ finished, source, column }) => {
        // Numbers that fit no more are shown otherwise.
        if (column !== null) this.#grid.refreshCells({ columns: [column], force: true });
        heights?.widened(column?.getColId());
        if (finished && source === 'uiColumnResized' && column !== null) {
          widen(session, sheet, column.getColId(), column.getActualWidth());
        }
      },
    });
    gridIsMade([...this.#drawn.values()].some(({ pinned }) => pinned === null));
    heights = new RowHeights({
      host,
      grid: this.#grid,
      session,
      sheet,
      drawn: () => this.#drawn,
      onChange: () => {
        this.#pointer.placeHandles();
        this.#whole.follow();
      },
      show: () => this.#show(session.at),
    });
    this.#heights = heights;
    heights.follow();
    this.#label();
    const viewEnd = new ViewEnd(host, () => this.#show(session.at));
    this.#ends.push(
      () => viewEnd.stop(),
      () => this.#whole.stop(),
      () => this.#heights.stop(),
      session.onRepaint((cells) => {
        paintCells(this.#grid, sheet, withAligned(session, cells));
        this.#heights.follow(cells);
      }),
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
      // A cell tapped with a finger brings the pad for numbers, where it takes one.
      if (cellAround(event.target) !== null && TOUCH.matches) session.setPad(true);
      if (this.#pointed) event.stopPropagation();
      this.#pointed = false;
      if (this.#headKey.isKey(event.target) && session.editing === undefined) {
        this.#headKey.open(this.#pointer.selectForMenu(event.target));
        event.stopPropagation();
        return;
      }
      const opens = this.#pointer.takeOpening();
      if (opens !== undefined && session.editing === undefined && same(opens, session.at)) {
        this.#edit('edit');
      }
    });
    this.#hear('focusin', (event) => this.#focused(event));
    this.#hear('copy', (event) => this.#clip(event));
    this.#hear('cut', (event) => this.#clip(event));
    this.#hear('paste', (event) => this.#clip(event));
    this.#hear('contextmenu', (event) => this.#menu(event));
    this.#hear('pointerover', (event) => this.#headKey.follow(event.target));
    this.#hear('pointermove', (event) => {
      if (event.buttons === 0 && event.pointerType === 'mouse') this.#pointer.edge.hover(event);
    });
    this.#hear('pointerleave', ({ target }) => {
      if (target === host) this.#headKey.follow(null);
    });
    this.#hear('dblclick', (event) => {
      if (session.editing !== undefined || this.#pointer.pressTwice(event.target)) return;
      if (cellAround(event.target) !== null) this.#edit('edit');
    });
  }

  destroy(): void {
    for (const end of this.#ends) end();
    this.#pointer.destroy();
    this.#pull.destroy();
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
      this.#heights.follow();
    }
    if (structures !== this.#structures) {
      this.#structures = structures;
      this.#label();
      this.#grid.refreshCells({ force: true });
      this.#heights.follow();
    }
    if (editing === undefined && !this.#isFocused(at)) this.#showFocus(at);
    this.#highlight();
    this.#highlightReads();
    this.#pointer.placeHandles();
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
    this.#pointer.placeHandles();
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
    this.#whole.follow();
    highlightSelection(this.#host, this.#session, this.#sheet);
  }

  /** Its name, and a line under and beside what is pinned. */
  #label(): void {
    const name = this.#session.book.sheet(this.#sheet)?.name ?? '';
    this.#grid.setGridAriaProperty('label', `Sheet ${name}`);
    const { frozenRows, frozenColumns } = this.#size;
    this.#host.dataset.pinned = [
      ...(frozenRows > 0 ? ['rows'] : []),
      ...(frozenColumns > 0 ? ['columns'] : []),
    ].join(' ');
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

  #showFocus(at: At): void {
    // A formula that is being written keeps the focus while its maker looks at another sheet.
    if (at.sheet !== this.#sheet || this.#session.editing !== undefined) return;
    const drawn = this.#drawn.get(at.row);
    if (drawn === undefined) return;
    this.#show(at);
    this.#grid.setFocusedCell(drawn.index, columnId(at.column), drawn.pinned);
  }

  #moveTo(at: At): void {
    const from = this.#session.at.column;
    this.#session.go(at);
    // At an edge, or where an editor was, the place is the same and the focus has gone.
    const onCell = document.activeElement?.classList.contains('ag-cell') === true;
    if (!onCell || !this.#isFocused(at)) this.#showFocus(at);
    else this.#show(at);
    showLineStart(this.#grid, from, at.column);
  }

  #leave(by: Leave): void {
    this.#grid.stopEditing(true);
    this.#moveTo(nextPlace(this.#session, by, this.#size));
  }

  #edit(mode: 'fresh' | 'edit', text?: string): void {
    if (!this.#session.begin(mode, 'cell', text)) return;
    this.#whole.follow();
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
    if (this.#pull.hears(event)) {
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    this.#valuesOnly = event.shiftKey && event.key.toLowerCase() === 'v';
    const action = keyAction(event, session.isFillingIn);
    if (action === undefined || this.#isBrowsers(action)) return;
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

  /** Keys that zoom are the browser's, but where they can only mean rows or columns. */
  #isBrowsers({ do: what }: KeyAction): boolean {
    if (what !== 'insertWhole' && what !== 'removeWhole') return false;
    return selectsWhole(this.#session) === 'cells';
  }

  /** Writes a sum of the numbers beside the current cell, to be looked at; of a selection it is put in at once. */
  #sum(): void {
    const session = this.#session;
    if (sumSelected(session)) return;
    this.#edit('edit', `=SUM(${numbersBeside(session) ?? ''})`);
  }

  #act(action: KeyAction): void {
    const session = this.#session;
    const { at } = session;
    switch (action.do) {
      case 'edit':
        this.#edit('edit');
        break;
      case 'pull':
        // Where there is no range, the key for down opens a list, or the entry.
        if (!this.#pull.step(action.by, action.wide) && action.by === -1) this.#edit('edit');
        break;
      case 'clear':
        clearSelected(session);
        break;
      case 'page':
        this.#reach(
          aPageFrom(this.#host, this.#lead(action.extend), action.by, this.#heights.of),
          action.extend,
        );
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
      case 'sum':
        this.#sum();
        break;
      case 'today':
        enterToday(session);
        break;
      case 'insert':
      case 'insertWhole':
        insertLines(session, selectsWhole(session) === 'columns' ? 'column' : 'row', 'before');
        break;
      case 'remove':
      case 'removeWhole':
        session.ask(selectsWhole(session) === 'columns' ? 'removeColumns' : 'removeRows');
        break;
      case 'region':
        selectRegion(session, this.#size);
        break;
      case 'rows':
      case 'columns': {
        const area = session.areas.at(-1);
        if (area !== undefined) session.selectLines(action.do === 'rows' ? 'row' : 'column', area);
        break;
      }
      default:
        break;
    }
  }

  /** The menu of the cell or the head that was pressed; what is selected there stays selected. */
  #menu(event: MouseEvent): void {
    const session = this.#session;
    if (session.editing !== undefined) return;
    const of = this.#pointer.selectForMenu(event.target);
    if (of === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    session.openMenu({ x: event.clientX, y: event.clientY, of });
  }

  #menuAt(place: Place): void {
    const of = selectsWhole(this.#session);
    const at =
      of === 'columns'
        ? this.#host.querySelector(`.ag-header-cell[col-id="${columnId(place.column)}"]`)
        : cellElement(this.#host, place);
    const { left = 100, bottom = 100 } = at?.getBoundingClientRect() ?? {};
    this.#session.openMenu({ x: left + 8, y: bottom, of });
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
    leaveRoom(this.#host, { row, column });
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
    if (session.editing === undefined && this.#headKey.isKey(event.target)) {
      event.preventDefault();
      event.stopPropagation();
      return;
    }
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
}
