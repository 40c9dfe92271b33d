import type { At, Place } from '@kerfbook/workbook';
import { selectsWhole } from '../commands/commands.ts';
import { afterGridModule } from '../page/after-grid.ts';
import { ignoreLetGo } from '../page/let-go.ts';
import { type Area, holds } from '../session/area.ts';
import { type Session, same } from '../session/session.ts';
import type { MenuState } from '../session/types.ts';
import { point } from '../writing/writing.ts';
import { placeOf } from './context.ts';
import { EdgeDrag } from './edge-drag.ts';
import { FillHandle } from './fill-handle.ts';
import { cellPlace, rowOf } from './highlights.ts';
import { PullHand } from './pull-hands.ts';
import { SelectHandle } from './select-handle.ts';

const widths = afterGridModule(() => import('../commands/widths.ts'));

interface Ground {
  readonly host: HTMLElement;
  readonly session: Session;
  readonly sheet: string;
  /** Rows and columns offered. */
  size(): { readonly rows: number; readonly columns: number };
  firstShown(): Place;
  /** Scrolls so that a place is in view. */
  show(place: Place): void;
}

/** What is under the pointer. */
type Under =
  | { readonly kind: 'cell'; readonly at: At }
  | { readonly kind: 'column'; readonly column: number }
  | { readonly kind: 'row'; readonly row: number }
  | { readonly kind: 'corner' };

/** Milliseconds between two steps while the pointer is held beyond an edge. */
const SCROLL_EVERY = 45;
/** How long a finger is held for a menu, ms, and how far it may slip, px. */
const HOLD = 550;
const SLIP = 10;
/** How wide the arrow of a list is to be pressed on, px. */
const ARROW = 24;

/**
 * Selecting with the pointer: cells, whole columns by their heads, whole rows by their numbers, all
 * by the corner; Shift goes on from the current cell, Ctrl begins another area.
 */
export class Pointer {
  readonly #ground: Ground;
  readonly handle: FillHandle;
  readonly #pull: PullHand;
  readonly edge: EdgeDrag;
  /** Where fingers select; there only where there are fingers. */
  readonly #selector: SelectHandle | undefined;
  #drag: { readonly end: () => void } | undefined;
  /** The last press was a finger's. */
  #touched = false;
  /** The cell whose list the press under way opens once it is let go. */
  #opens: At | undefined;

  constructor(ground: Ground) {
    this.#ground = ground;
    this.handle = new FillHandle(ground);
    this.#pull = new PullHand(ground.session);
    this.edge = new EdgeDrag(ground.host, ground.session, ground.sheet);
    if (matchMedia('(pointer: coarse)').matches) {
      this.#selector = new SelectHandle(ground);
    }
  }

  destroy(): void {
    this.#pull.destroy();
    this.#drag?.end();
  }

  /** Puts what is dragged at the corners of the selection where it belongs now. */
  placeHandles(): void {
    this.handle.place();
    this.#selector?.place();
  }

  /** The cell whose list the press that became a click opens. */
  takeOpening(): At | undefined {
    const at = this.#opens;
    this.#opens = undefined;
    return at;
  }

  /** True when the press is ours and the grid is to know nothing of it. */
  press(event: PointerEvent): boolean {
    this.#opens = undefined;
    if (event.button === 2) return this.#pressMenu(event);
    if (event.button !== 0) return false;
    this.#touched = event.pointerType === 'touch';
    const onHandle = this.handle.isHandle(event.target);
    if (onHandle || this.#selector?.isHandle(event.target) === true) {
      // Under a fingertip they cover much of their cell: where nothing is dragged, the tap is the cell's, or that of
      // the one they hang over.
      const { session } = this.#ground;
      if (this.#touched && session.current().allow?.list !== undefined) this.#opens = session.at;
      const under = this.#touched ? this.#behind(event) : undefined;
      const tapped = (): void => {
        if (under !== undefined && !same(under, session.at)) session.go(under);
      };
      if (onHandle) this.#dragHandle(tapped);
      else this.#dragSelector(tapped);
      return true;
    }
    const held = event.pointerType === 'touch' ? undefined : this.edge.holdsAt(event);
    // With Shift a press goes on selecting; with Ctrl the edge is taken to copy what is in it.
    if (held !== undefined && !event.shiftKey) {
      this.#dragEdge(held, event);
      return true;
    }
    const under = this.#under(event.target);
    if (under === undefined) return false;
    const { session } = this.#ground;
    const also = event.ctrlKey || event.metaKey;
    switch (under.kind) {
      case 'cell': {
        const { at } = under;
        if (event.shiftKey) session.extendTo(at);
        else if (also) session.selectAlso(at);
        else session.go(at);
        if (!event.shiftKey && !also && this.#pull.isSign(event.target)) {
          if (event.pointerType === 'touch') this.#hold(event);
          this.#pull.press(event, at, () => this.#dragOver((place) => session.extendTo(place)));
          return true;
        }
        if (!event.shiftKey && !also && this.#opensList(event, at)) this.#opens = at;
        // A finger that moves scrolls; it selects by the handles.
        if (event.pointerType === 'touch') this.#hold(event);
        else {
          this.#dragOver((place) => {
            this.#opens = undefined;
            session.extendTo(place);
          });
        }
        return event.shiftKey || also;
      }
      case 'column':
        this.#lines('column', under.column, event);
        return true;
      case 'row':
        this.#lines('row', under.row, event);
        return true;
      case 'corner':
        session.select(this.#whole(), session.at);
        return true;
    }
  }

  /** Two presses on the edge of a head fit its column, on the fill handle fill down. True: they were for one. */
  pressTwice(target: EventTarget | null): boolean {
    if (this.handle.isHandle(target) && !this.#touched) {
      this.handle.fillDown();
      return true;
    }
    const edge = target instanceof Element ? target.closest('.ag-header-cell-resize') : null;
    const id = edge?.closest('.ag-header-cell')?.getAttribute('col-id');
    const at = placeOf(this.#ground.sheet, 0, id ?? undefined);
    if (at === undefined) return edge !== null;
    const { session } = this.#ground;
    const area = session.areas.at(-1);
    const all = selectsWhole(session) === 'columns' && area !== undefined && holds(area, at);
    widths().then(
      ({ fitColumns }) =>
        fitColumns(session, all ? area.left : at.column, all ? area.right : at.column),
      () => undefined,
    );
    return true;
  }

  /** A tap anywhere on a cell with a list opens it, the pointer on its arrow does. */
  #opensList(event: PointerEvent, at: At): boolean {
    if (this.#ground.session.book.cell(at).allow?.list === undefined) return false;
    if (event.pointerType === 'touch') return true;
    const cell = event.target instanceof Element ? event.target.closest('.ag-cell') : null;
    const { right = 0 } = cell?.getBoundingClientRect() ?? {};
    return right - event.clientX <= ARROW;
  }

  /** A finger held on a cell opens its menu (G64): not every browser tells of a long press itself. */
  #hold({ clientX: x, clientY: y, pointerId }: PointerEvent, of: MenuState['of'] = 'cells'): void {
    this.#drag?.end();
    const { session } = this.#ground;
    const timer = setTimeout(() => {
      end();
      if (session.pulls.now !== undefined) return;
      this.#opens = undefined;
      ignoreLetGo();
      session.openMenu({ x, y, of });
    }, HOLD);
    const move = (event: PointerEvent): void => {
      if (event.pointerId !== pointerId) return;
      if (Math.hypot(event.clientX - x, event.clientY - y) <= SLIP) return;
      this.#opens = undefined;
      end();
    };
    const end = (): void => {
      clearTimeout(timer);
      document.removeEventListener('pointermove', move, true);
      document.removeEventListener('pointerup', end, true);
      document.removeEventListener('pointercancel', end, true);
      this.#drag = undefined;
    };
    document.addEventListener('pointermove', move, true);
    document.addEventListener('pointerup', end, true);
    document.addEventListener('pointercancel', end, true);
    this.#drag = { end };
  }

  /** The menu is about what is selected: a press within it selects nothing else, nor does one on a head. */
  #pressMenu(event: PointerEvent): boolean {
    const under = this.#under(event.target);
    const { session } = this.#ground;
    if (under === undefined) return false;
    if (under.kind !== 'cell') return true;
    return session.areas.some((area) => holds(area, under.at));
  }

  /**
   * Selects what a menu opened here is about, where it is not selected yet: a cell, or the whole column or row
   * of a head. Tells which; undefined where there is none.
   */
  selectForMenu(target: EventTarget | null): MenuState['of'] {
    const under = this.#under(target);
    const { session, sheet } = this.#ground;
    switch (under?.kind) {
      case 'cell':
        if (!session.areas.some((area) => holds(area, under.at))) session.go(under.at);
        return 'cells';
      case 'column': {
        const { column } = under;
        const within = session.areas.some((one) => column >= one.left && column <= one.right);
        if (selectsWhole(session) !== 'columns' || !within) {
          this.#select('column', column, column);
        }
        return 'columns';
      }
      case 'row': {
        const { row } = under;
        const within = session.areas.some((one) => row >= one.top && row <= one.bottom);
        if (selectsWhole(session) !== 'rows' || !within) this.#select('row', row, row);
        return 'rows';
      }
      case 'corner':
        session.select(this.#whole(), { ...session.at, sheet });
        return 'cells';
      default:
        return undefined;
    }
  }

  /** Writes a reference to what is pressed, and to what it is dragged over. */
  point(event: PointerEvent): void {
    const { session, sheet } = this.#ground;
    const under = this.#under(event.target);
    if (under?.kind !== 'cell') return;
    const from = event.shiftKey ? (session.editing?.pointed?.from ?? under.at) : under.at;
    point(session, sheet, from, under.at);
    this.#dragOver((place) => point(session, sheet, from, place));
  }

  /** The cell that a handle hangs over where it is pressed. */
  #behind({ clientX, clientY }: PointerEvent): At | undefined {
    const cell = document
      .elementsFromPoint(clientX, clientY)
      .find((one) => one.classList.contains('ag-cell'));
    return cell === undefined ? undefined : cellPlace(cell, this.#ground.sheet);
  }

  #dragSelector(tapped: () => void): void {
    const reach = this.#selector?.reach();
    let moved = false;
    this.#dragOver(
      (place) => {
        this.#opens = undefined;
        moved = true;
        reach?.(place);
      },
      () => {
        if (!moved) tapped();
      },
    );
  }

  #dragHandle(tapped: () => void): void {
    let to: Area | undefined;
    let moved = false;
    this.#dragOver(
      (place) => {
        this.#opens = undefined;
        moved = true;
        to = this.handle.reach(place);
        this.handle.preview(to);
      },
      () => {
        if (moved) this.handle.fill(to);
        else tapped();
      },
    );
  }

  /** Drags what is selected by its edge; a press that is let go where it was goes to its cell. */
  #dragEdge(from: Place, { ctrlKey, metaKey, altKey }: PointerEvent): void {
    const { session, sheet } = this.#ground;
    let to: Area | undefined;
    let copies = ctrlKey || metaKey || altKey;
    const show = (): void => this.edge.preview(to, copies);
    // Whether it copies is told by what is held when it is let go.
    const key = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') {
        event.preventDefault();
        event.stopPropagation();
        to = undefined;
        cancelled = true;
        this.#drag?.end();
        return;
      }
      copies = event.ctrlKey || event.metaKey || event.altKey;
      show();
    };
    let cancelled = false;
    document.addEventListener('keydown', key, true);
    document.addEventListener('keyup', key, true);
    this.#dragOver(
      (place) => {
        to = this.edge.target(from, place);
        show();
      },
      () => {
        document.removeEventListener('keydown', key, true);
        document.removeEventListener('keyup', key, true);
        this.edge.preview(undefined);
        if (to !== undefined) this.edge.drop(to, copies);
        else if (!cancelled) session.go({ sheet, ...from });
      },
      from,
    );
  }

  #whole(): Area {
    const { rows, columns } = this.#ground.size();
    return { top: 0, left: 0, bottom: rows - 1, right: columns - 1 };
  }

  /** Selects whole rows or columns from one to the other, and on while the pointer moves. */
  #lines(kind: 'row' | 'column', at: number, event: PointerEvent): void {
    const { session } = this.#ground;
    const from = event.shiftKey ? session.at[kind] : at;
    this.#select(kind, from, at);
    // A finger held on a head opens its menu.
    if (event.pointerType === 'touch') this.#hold(event, `${kind}s`);
    else this.#dragOver((place) => this.#select(kind, from, place[kind]));
  }

  #select(kind: 'row' | 'column', from: number, to: number): void {
    const { session, sheet } = this.#ground;
    const whole = this.#whole();
    const first = this.#ground.firstShown();
    const [low, high] = [Math.min(from, to), Math.max(from, to)];
    if (kind === 'row') {
      const area = { ...whole, top: low, bottom: high };
      session.select(area, { sheet, row: from, column: first.column });
    } else {
      const area = { ...whole, left: low, right: high };
      session.select(area, { sheet, row: first.row, column: from });
    }
  }

  /** Follows the pointer until it is let go, scrolling while it is held beyond an edge (G14). */
  #dragOver(
    reach: (place: Place) => void,
    done: () => void = () => undefined,
    from: Place = this.#ground.session.selection?.lead ?? this.#ground.session.at,
  ): void {
    this.#drag?.end();
    const { host } = this.#ground;
    let last: Place = from;
    let beyond = { rows: 0, columns: 0 };
    const to = (place: Place): void => {
      if (place.row === last.row && place.column === last.column) return;
      last = place;
      reach(place);
    };
    const timer = setInterval(() => {
      if (beyond.rows === 0 && beyond.columns === 0) return;
      const { rows, columns } = this.#ground.size();
      const place = {
        row: Math.max(0, Math.min(rows - 1, last.row + beyond.rows)),
        column: Math.max(0, Math.min(columns - 1, last.column + beyond.columns)),
      };
      this.#ground.show(place);
      to(place);
    }, SCROLL_EVERY);
    const move = (event: PointerEvent): void => {
      const field = (
        host.querySelector('.ag-body-viewport, .ag-grid-viewport') ?? host
      ).getBoundingClientRect();
      beyond = {
        rows: event.clientY > field.bottom ? 1 : event.clientY < field.top ? -1 : 0,
        columns: event.clientX > field.right ? 1 : event.clientX < field.left ? -1 : 0,
      };
      const place = this.placeAt(event.clientX, event.clientY);
      if (place !== undefined) to(place);
    };
    const end = (): void => {
      clearInterval(timer);
      document.removeEventListener('pointermove', move, true);
      document.removeEventListener('pointerup', end, true);
      document.removeEventListener('pointercancel', end, true);
      this.#drag = undefined;
      done();
    };
    document.addEventListener('pointermove', move, true);
    document.addEventListener('pointerup', end, true);
    document.addEventListener('pointercancel', end, true);
    this.#drag = { end };
  }

  /** The place under a point: of a cell, or in line with a head. */
  placeAt(x: number, y: number): Place | undefined {
    const under = this.#under(document.elementFromPoint(x, y));
    const { session } = this.#ground;
    const lead = session.selection?.lead ?? session.at;
    switch (under?.kind) {
      case 'cell':
        return under.at;
      case 'column':
        return { row: lead.row, column: under.column };
      case 'row':
        return { row: under.row, column: lead.column };
      default:
        return undefined;
    }
  }

  #under(target: EventTarget | null): Under | undefined {
    if (!(target instanceof Element) || !this.#ground.host.contains(target)) return undefined;
    const cell = target.closest('.ag-cell');
    if (cell !== null) {
      if (cell.classList.contains('row-number')) {
        const row = rowOf(cell);
        return row === undefined ? undefined : { kind: 'row', row };
      }
      const at = cellPlace(cell, this.#ground.sheet);
      return at === undefined ? undefined : { kind: 'cell', at };
    }
    if (target.closest('.ag-header-cell-resize') !== null) return undefined;
    const head = target.closest('.ag-header-cell')?.getAttribute('col-id') ?? '';
    if (head === 'row') return { kind: 'corner' };
    const column = /^c(\d+)$/.exec(head)?.[1];
    return column === undefined ? undefined : { kind: 'column', column: Number(column) };
  }
}
