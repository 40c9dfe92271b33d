import type { At, OpenWorkbook, Place } from '@kerfbook/workbook';
import {
  type Area,
  areaBetween,
  areaOf,
  cellsOf,
  holds,
  type Selection,
  sizeInWords,
} from './area.ts';
import { offered } from './offered.ts';
import { firstCell, same } from './places.ts';
import type { Standing } from './standing.ts';

/** The current cell, and what is selected around it or beside it. */
export class Selecting {
  readonly #book: OpenWorkbook;
  readonly #standing: Standing;
  readonly #lastOn = new Map<string, At>();
  #runStart: number | undefined;
  #hasWritten = false;

  constructor(book: OpenWorkbook, standing: Standing) {
    this.#book = book;
    this.#standing = standing;
  }

  get at(): At {
    return this.#standing.now.at;
  }

  get selection(): Selection | undefined {
    return this.#standing.now.selection;
  }

  go(at: At): void {
    if (same(at, this.at) && this.selection === undefined) return;
    this.#lastOn.set(at.sheet, at);
    this.#standing.clear('selection');
    this.#standing.set({ at });
  }

  /** The cell of a sheet that was current there last. */
  lastOn(sheet: string): At {
    return this.#lastOn.get(sheet) ?? firstCell(this.#book, sheet);
  }

  /** To a cell with all that is selected as it is: what is written or was changed leads there. */
  moveTo(at: At): void {
    this.#standing.set({ at });
  }

  /** What is selected, as areas of the current sheet; the current cell where nothing more is. */
  get areas(): readonly Area[] {
    return this.selection?.areas ?? [areaOf(this.at)];
  }

  isSelected(at: At): boolean {
    const { selection } = this;
    if (selection === undefined || at.sheet !== this.at.sheet) return false;
    return selection.areas.some((area) => holds(area, at));
  }

  /** Selects from the current cell to a place; areas selected before stay (G11). */
  extendTo(place: Place): void {
    const others = this.selection?.areas.slice(0, -1) ?? [];
    const area = areaBetween(this.at, place);
    const alone = others.length === 0 && cellsOf(area) === 1;
    if (alone) this.#standing.clear('selection');
    else this.#select({ areas: [...others, area], lead: place });
  }

  /** Selects an area; the current cell stays where it is, or comes along to the area's corner. */
  select(area: Area, at: At = this.at): void {
    const corner = holds(area, at) ? at : { ...at, row: area.top, column: area.left };
    const lead = {
      row: corner.row === area.top ? area.bottom : area.top,
      column: corner.column === area.left ? area.right : area.left,
    };
    if (!same(corner, this.at)) this.moveTo(corner);
    this.#select({ areas: [area], lead });
  }

  /** Selects the whole rows or columns that an area stands in. */
  selectLines(line: 'row' | 'column', area: Area): void {
    const { rows, columns } = offered(this.#book.sheet(this.at.sheet));
    this.select(
      line === 'row'
        ? { ...area, left: 0, right: columns - 1 }
        : { ...area, top: 0, bottom: rows - 1 },
    );
  }

  /** Begins another area at a place, beside those selected (G16). */
  selectAlso(at: At): void {
    const { areas } = this;
    this.moveTo(at);
    this.#select({ areas: [...areas, areaOf(at)], lead: at });
  }

  #select(selection: Selection): void {
    const view = this.#book.sheet(this.at.sheet);
    this.#standing.set({ selection, announcement: sizeInWords(selection.areas, view) });
  }

  /** The current cell, moved to a sheet that is still there. */
  inside(): At {
    return this.#book.sheet(this.at.sheet) === undefined ? firstCell(this.#book) : this.at;
  }

  /** Something is written: a run of Tabs from here on fills a line in. */
  wrote(): void {
    this.#hasWritten = true;
  }

  /** Whether a run of Tabs is filling a line in, so that Enter ends the line even in a cell left empty. */
  get isFillingIn(): boolean {
    return this.#runStart !== undefined && this.#hasWritten;
  }

  /** Tab goes right and remembers where the run began, so that Enter returns there (G06). */
  tabbed(fromColumn: number): void {
    this.#runStart ??= fromColumn;
  }

  /** The column Enter goes to: where a run of Tabs began, else the same one. */
  entered(column: number): number {
    const start = this.#runStart ?? column;
    this.moved();
    return start;
  }

  /** Any other way of moving ends a run of Tabs. */
  moved(): void {
    this.#runStart = undefined;
    this.#hasWritten = false;
  }
}
