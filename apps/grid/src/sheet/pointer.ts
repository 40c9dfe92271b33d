import type { At, Place } from '@kerfbook/workbook';
import { type Area, holds } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import { point } from '../writing/writing.ts';
import { FillHandle } from './fill-handle.ts';
import { cellPlace, rowOf } from './highlights.ts';

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

/**
 * Selecting with the pointer: cells, whole columns by their heads, whole rows by their numbers, all
 * by the corner; Shift goes on from the current cell, Ctrl begins another area.
 */
export class Pointer {
  readonly #ground: Ground;
  readonly handle: FillHandle;
  #drag: { readonly end: () => void } | undefined;

  constructor(ground: Ground) {
    this.#ground = ground;
    this.handle = new FillHandle(ground.host, ground.session, ground.sheet);
  }

  destroy(): void {
    this.#drag?.end();
  }

  /** True when the press is ours and the grid is to know nothing of it. */
  press(event: PointerEvent): boolean {
    if (event.button === 2) return this.#pressMenu(event);
    if (event.button !== 0) return false;
    if (this.handle.isHandle(event.target)) {
      this.#dragHandle();
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
        // A finger that moves scrolls; it selects by the handles.
        if (event.pointerType === 'touch') this.#hold(event);
        else this.#dragOver((place) => session.extendTo(place));
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

  /** A finger held on a cell opens its menu (G64): not every browser tells of a long press itself. */
  #hold({ clientX: x, clientY: y, pointerId }: PointerEvent): void {
    this.#drag?.end();
    const { session } = this.#ground;
    const timer = setTimeout(() => {
      end();
      session.openMenu({ x, y });
    }, HOLD);
    const move = (event: PointerEvent): void => {
      if (event.pointerId !== pointerId) return;
      if (Math.hypot(event.clientX - x, event.clientY - y) > SLIP) end();
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

  /** The menu is about what is selected: a press within it selects nothing else. */
  #pressMenu(event: PointerEvent): boolean {
    const under = this.#under(event.target);
    const { session } = this.#ground;
    if (under?.kind !== 'cell') return false;
    return session.areas.some((area) => holds(area, under.at));
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

  #dragHandle(): void {
    let to: Area | undefined;
    this.#dragOver(
      (place) => {
        to = this.handle.reach(place);
        this.handle.preview(to);
      },
      () => this.handle.fill(to),
    );
  }

  #whole(): Area {
    const { rows, columns } = this.#ground.size();
    return { top: 0, left: 0, bottom: rows - 1, right: columns - 1 };
  }

  /** Selects whole rows or columns from one to the other, and on while the pointer moves. */
  #lines(kind: 'row' | 'column', at: number, event: PointerEvent): void {
    const { session, sheet } = this.#ground;
    const whole = this.#whole();
    const first = this.#ground.firstShown();
    const from = event.shiftKey ? session.at[kind] : at;
    const current: At =
      kind === 'row'
        ? { sheet, row: from, column: first.column }
        : { sheet, row: first.row, column: from };
    const select = (to: number): void => {
      const [low, high] = [Math.min(from, to), Math.max(from, to)];
      const area =
        kind === 'row'
          ? { ...whole, top: low, bottom: high }
          : { ...whole, left: low, right: high };
      session.select(area, current);
    };
    select(at);
    this.#dragOver((place) => select(place[kind]));
  }

  /** Follows the pointer until it is let go, scrolling while it is held beyond an edge (G14). */
  #dragOver(reach: (place: Place) => void, done: () => void = () => undefined): void {
    this.#drag?.end();
    const { host } = this.#ground;
    let last: Place = this.#ground.session.selection?.lead ?? this.#ground.session.at;
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
