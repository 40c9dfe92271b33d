import {
  type At,
  type BookState,
  type Formula,
  type KeptReference,
  nameKey,
} from '@kerfbook/document';
import { OWN_COLUMNS, ownAreasOf, ownKindsIn } from '../book/own-tables.ts';
import { type Aggregate, joined, joinedNumbers } from './aggregates.ts';
import type { Around, Compiled, OwnTable, Rectangle } from './around.ts';
import type { FastRuns } from './fast.ts';
import { Frame } from './frame.ts';
import { NotCompiled } from './not-compiled.ts';
import { type Column, type Corners, type Line, Places } from './places.ts';
import { NODE, Program } from './program.ts';
import type { Value } from './values.ts';

/** A range that formulas use, between rows and columns that are known by their ids. */
export interface Range extends Rectangle {
  readonly sheet: string;
  readonly node: number;
  readonly corners: Corners;
  /** Nodes that keep what functions come to over it, by the functions' names. */
  readonly shared: Map<string, number>;
  cells: Int32Array;
  width: number;
}

/** Over more cells than this, a function is worked out once for all formulas that ask for the same. */
const FEW = 64;

/** What a formula asked for while it was compiled. */
export interface Asked {
  /** Keys of names, whether there are such cells or not. */
  readonly names: Set<string>;
  /** It names what is not there. */
  gone: boolean;
}

/** The nodes of a workbook: those of its cells, of the ranges and of the numbers that formulas use. */
export class World {
  readonly program = new Program();
  readonly frame = Frame.of([]);
  readonly places = new Places();
  /** What nodes use from the next settling of the program on. */
  readonly next = new Map<number, ArrayLike<number>>();
  /** Nodes that no cell is, to be worked out from the next settling on: they are new or have other cells. */
  readonly due: number[] = [];
  /** Nodes of cells that were made since formulas use them. */
  readonly blanks: number[] = [];
  /** Names that lie in a loop themselves. */
  looped: ReadonlySet<string> = new Set();
  /** Cells of all ranges. */
  rangeCells = 0;
  asked: Asked = { names: new Set(), gone: false };
  readonly #ranges = new Map<string, Map<string, Range>>();
  readonly #constants = new Map<number, number>();
  readonly #runs: FastRuns = new Map();
  readonly #arounds = new Map<string, Around>();
  readonly #state: () => BookState;

  constructor(state: () => BookState) {
    this.#state = state;
  }

  add(kind: (typeof NODE)[keyof typeof NODE], value: Value = null): number {
    const node = this.program.add(kind);
    this.frame.reach(this.program.count);
    if (value !== null) this.frame.put(node, value);
    return node;
  }

  /** The node of a cell, made where there is none yet. */
  node(line: Line, column: Column): number {
    const known = line.nodes[column.number];
    if (known !== undefined) return known;
    const node = this.add(NODE.cell);
    this.places.put(line, column, node);
    return node;
  }

  /** The same of a cell that a formula uses. */
  #used(line: Line, column: Column): number {
    const before = this.program.count;
    const node = this.node(line, column);
    if (node >= before) this.blanks.push(node);
    return node;
  }

  /** The same by where it stands. */
  usedAt({ sheet, row, column }: At): number | undefined {
    const [line, of] = [this.places.lineAt(sheet, row), this.places.columnAt(sheet, column)];
    return line === undefined || of === undefined ? undefined : this.#used(line, of);
  }

  around(home: string): Around {
    let around = this.#arounds.get(home);
    if (around === undefined) {
      around = this.#makeAround(home);
      this.#arounds.set(home, around);
    }
    return around;
  }

  #makeAround(home: string): Around {
    const system = this.#state().head.units;
    return {
      system,
      runs: this.#runs,
      cell: ({ sheet = home, from }) => {
        const found = this.#corner(sheet, from);
        if (found === undefined) this.asked.gone = true;
        return found === undefined ? undefined : this.#used(found.line, found.column);
      },
      range: (reference) => this.#range(reference, home),
      named: (name) => this.#named(name),
      constant: (value) => this.#constant(value),
      shared: (name, aggregate, range) => this.#shared(name, aggregate, range as Range),
      inLoop: (name) => this.looped.has(nameKey(name)),
    };
  }

  #named(name: string): number | undefined {
    const key = nameKey(name);
    this.asked.names.add(key);
    const home = this.#state().homes.get(key);
    if (home === undefined) return undefined;
    const line = this.places.line(home.sheet, home.row);
    const column = this.places.column(home.sheet, home.column);
    return line === undefined || column === undefined ? undefined : this.#used(line, column);
  }

  #constant(value: number): number {
    let node = this.#constants.get(value);
    if (node === undefined) {
      node = this.add(NODE.inner, value);
      this.#constants.set(value, node);
    }
    return node;
  }

  #corner(sheet: string, { row, column }: KeptReference['from']) {
    if (row === undefined || column === undefined) return undefined;
    const [line, of] = [this.places.line(sheet, row), this.places.column(sheet, column)];
    return line === undefined || of === undefined ? undefined : { line, column: of };
  }

  #range(reference: KeptReference, home: string): Range | 'gone' | 'unfit' {
    const { sheet = home, from, to } = reference;
    if (to === undefined) return 'unfit';
    const corners = this.places.corners(sheet, from, to);
    if (corners === undefined) this.asked.gone = true;
    return corners === undefined ? 'gone' : this.#between(sheet, corners);
  }

  #between(sheet: string, corners: Corners): Range {
    const { top, left, bottom, right } = corners;
    const key = `${sheet} ${top.id} ${left.number} ${bottom.id} ${right.number}`;
    let ranges = this.#ranges.get(sheet);
    if (ranges === undefined) {
      ranges = new Map();
      this.#ranges.set(sheet, ranges);
    }
    const known = ranges.get(key);
    if (known !== undefined) return known;
    const cells = this.#cellsOf(sheet, corners);
    const range: Range = {
      key,
      sheet,
      corners,
      node: this.add(NODE.range),
      shared: new Map(),
      cells,
      width: right.index - left.index + 1,
    };
    ranges.set(key, range);
    this.rangeCells += cells.length;
    this.next.set(range.node, cells);
    return range;
  }

  #cellsOf(sheet: string, { top, left, bottom, right }: Corners): Int32Array {
    const cells = new Int32Array(countOf({ top, left, bottom, right }));
    let at = 0;
    for (let row = top.index; row <= bottom.index; row += 1) {
      const line = this.places.lineAt(sheet, row) as Line;
      for (let index = left.index; index <= right.index; index += 1) {
        cells[at] = this.#used(line, this.places.columnAt(sheet, index) as Column);
        at += 1;
      }
    }
    return cells;
  }

  #shared(name: string, aggregate: Aggregate, range: Range): number | undefined {
    if (range.cells.length <= FEW) return undefined;
    const known = range.shared.get(name);
    if (known !== undefined) return known;
    const node = this.add(NODE.inner);
    range.shared.set(name, node);
    this.program.work[node] = (frame) => joined(aggregate, frame, range.cells);
    if (aggregate.numeric) {
      this.program.fast[node] = (numbers) =>
        joinedNumbers(aggregate, numbers, range.cells, 0, range.cells.length);
    }
    this.next.set(node, [range.node]);
    this.due.push(node);
    return node;
  }

  /**
   * Rows or columns of a sheet came, went or changed places: its ranges have the cells that lie in them
   * now. Answers with the nodes of those that have others than before; as many are the same, except where
   * rows or columns changed places.
   */
  reshape(sheet: string, changedPlaces: boolean): readonly number[] {
    const changed: number[] = [];
    for (const [key, range] of this.#ranges.get(sheet) ?? []) {
      const { corners } = range;
      if (!isThere(corners) || isTurned(corners)) {
        this.#ranges.get(sheet)?.delete(key);
        this.rangeCells -= range.cells.length;
        this.next.set(range.node, []);
        changed.push(range.node);
        continue;
      }
      if (!changedPlaces && countOf(corners) === range.cells.length) continue;
      const cells = this.#cellsOf(sheet, corners);
      if (isSame(cells, range.cells)) continue;
      this.rangeCells += cells.length - range.cells.length;
      range.cells = cells;
      range.width = corners.right.index - corners.left.index + 1;
      this.next.set(range.node, cells);
      this.due.push(range.node);
      changed.push(range.node);
    }
    return changed;
  }

  /** A sheet is gone; the nodes of its ranges. */
  dropRanges(sheet: string): readonly number[] {
    const ranges = [...(this.#ranges.get(sheet)?.values() ?? [])];
    this.#ranges.delete(sheet);
    for (const { node, cells } of ranges) {
      this.rangeCells -= cells.length;
      this.next.set(node, []);
    }
    return ranges.map(({ node }) => node);
  }

  /** Whether functions of a formula look in own tables of their kinds, if there are such. */
  static looks(formula: Formula): boolean {
    return ownKindsIn(formula).size > 0;
  }

  /** Own tables that the functions of a formula look in first. */
  own(formula: Formula, home: string): readonly OwnTable[] {
    const state = this.#state();
    if (state.tables.length === 0) return [];
    return ownAreasOf(formula, home, state).flatMap(({ kind, sheet, header, last }) => {
      const [top, bottom] = [this.places.lineAt(sheet, header), this.places.lineAt(sheet, last)];
      const left = this.places.columnAt(sheet, 0);
      const wide = Math.min(OWN_COLUMNS, state.sheet(sheet)?.columns.length ?? 0);
      // It is there all the same, and says what is missing in it.
      if (wide === 0) throw new NotCompiled(kind);
      const right = this.places.columnAt(sheet, wide - 1);
      if (top === undefined || bottom === undefined) return [];
      if (left === undefined || right === undefined) return [];
      return [{ kind, area: this.#between(sheet, { top, bottom, left, right }) }];
    });
  }
}

/** The nodes that a compiled formula uses. */
export function usesOf({ cells, ranges }: Compiled): readonly number[] {
  if (ranges.length === 0) return cells;
  return [...cells, ...ranges.map((range) => (range as Range).node)];
}

const isThere = ({ top, bottom, left, right }: Corners): boolean =>
  top.index >= 0 && bottom.index >= 0 && left.index >= 0 && right.index >= 0;

const isTurned = ({ top, bottom, left, right }: Corners): boolean =>
  bottom.index < top.index || right.index < left.index;

const countOf = ({ top, bottom, left, right }: Corners): number =>
  (bottom.index - top.index + 1) * (right.index - left.index + 1);

function isSame(a: Int32Array, b: Int32Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return false;
  return true;
}
