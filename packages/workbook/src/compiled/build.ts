import {
  type At,
  type BookState,
  CHECKS_SHEET,
  cellOf,
  type Formula,
  formulaOf,
  guardFormula,
  type KeptReference,
  type Node,
} from '@kerfbook/document';
import type { UnitSystem } from '@kerfbook/wood';
import { OWN_COLUMNS, ownAreasOf } from '../book/own-tables.ts';
import type { FoundError } from '../results/errors.ts';
import type { Closure } from './closure.ts';
import { type Around, type Compiled, compile, type OwnTable, type Rectangle } from './compile.ts';
import type { Fast } from './fast.ts';
import { Frame } from './frame.ts';
import { NotCompiled } from './not-compiled.ts';
import { ordered, packed, turned } from './order.ts';
import { type Program, workAll } from './program.ts';
import { namedBy, standingIn } from './standing.ts';
import { Failure, failureOf, type Value } from './values.ts';

/** The engine that works out what is not compiled, and knows what formulas use. */
export interface Judge {
  readonly overBudget: boolean;
  exact(at: At): number | string | boolean | null | FoundError;
  precedents(at: At): readonly At[];
}

/** A formula that is not compiled, with the word for what it is about. */
export interface LeftOut {
  readonly at: At;
  readonly slot: number;
  readonly word: string;
  readonly readable: boolean;
}

export interface CompiledBook {
  readonly program: Program;
  /** The values of all cells now. */
  readonly frame: Frame;
  readonly left: readonly LeftOut[];
  slotOf(at: At): number | undefined;
  placeOf(slot: number): At | undefined;
  isFormula(slot: number): boolean;
}

/** More cells than this are not told one by one: whoever uses them may use any. */
const MANY = 2_000;

/**
 * Compiles every formula of a workbook. What cannot be compiled has the value that the other engine
 * gives it.
 */
export function compileBook(state: BookState, judge: Judge): CompiledBook {
  return new Builder(state, judge).build();
}

interface Told {
  readonly slot: number;
  readonly at: At;
  readonly formula: Formula;
  /** Checks look in own tables of every sheet, cells in those of other sheets. */
  readonly home: string;
  compiled?: Compiled;
  uses?: readonly number[] | 'values';
}

class Builder {
  readonly #state: BookState;
  readonly #judge: Judge;
  readonly #slots = new Map<number, number>();
  /** Cells by their slots; none for numbers that stand in formulas. */
  readonly #places: (At | undefined)[] = [];
  readonly #values: Value[] = [];
  readonly #constants = new Map<number, number>();
  readonly #sheetNumber = new Map<string, number>();
  readonly #ranges = new Map<string, Rectangle>();
  readonly #told: Told[] = [];
  readonly #left: LeftOut[] = [];
  /** Empty cells that formulas use: results that spread may lie on them. */
  readonly #empty: number[] = [];
  readonly #looped = new Set<string>();
  /** Cells that hold several values. */
  readonly #several = new Set<number>();

  constructor(state: BookState, judge: Judge) {
    this.#state = state;
    this.#judge = judge;
  }

  build(): CompiledBook {
    for (const sheet of [...this.#state.sheets.map(({ id }) => id), CHECKS_SHEET]) {
      this.#sheetNumber.set(sheet, this.#sheetNumber.size);
    }
    this.#readCells();
    for (const told of this.#told) this.#compile(told);
    this.#spread();
    this.#leaveRanges();
    let laid = this.#lay();
    if (this.#findLoopedNames(laid.loop)) {
      for (const told of this.#told) {
        const names = told.compiled?.names ?? [];
        if (names.some((name) => this.#looped.has(name))) this.#compile(told);
      }
      laid = this.#lay();
    }
    const { program, loop } = laid;
    // What is left to the other engine has the loop that it found there.
    for (const { slot, compiled } of this.#told) {
      if (loop[slot] !== 0 && compiled !== undefined) {
        this.#values[slot] = new Failure('CYCLE', '', slot);
      }
    }
    const frame = Frame.of(this.#values);
    workAll(program, frame);
    const formulas = new Set(this.#told.map(({ slot }) => slot));
    return {
      isFormula: (slot) => formulas.has(slot),
      program,
      frame,
      left: this.#left,
      slotOf: (at) => this.#slots.get(this.#key(at)),
      placeOf: (slot) => this.#places[slot],
    };
  }

  #key({ sheet, row, column }: At): number {
    return ((this.#sheetNumber.get(sheet) ?? 0) * 16_384 + row) * 1_024 + column;
  }

  #slot(at: At, value: Value = null): number {
    const key = this.#key(at);
    const known = this.#slots.get(key);
    if (known !== undefined) return known;
    const slot = this.#places.length;
    this.#slots.set(key, slot);
    this.#places.push(at);
    this.#values.push(value);
    return slot;
  }

  #readCells(): void {
    const formulas: (() => void)[] = [];
    for (const { id, rows, columns } of this.#state.sheets) {
      for (const [row, { cells }] of rows.entries()) {
        for (const [column, { id: columnId }] of columns.entries()) {
          const cell = cells.get(columnId);
          if (cell === undefined) continue;
          const at = { sheet: id, row, column };
          const value = cell.override?.value ?? cell.value;
          if (cell.formula === undefined || cell.override !== undefined) {
            if (value !== undefined) this.#slot(at, value === 0 ? 0 : value);
            continue;
          }
          const slot = this.#slot(at);
          const formula = formulaOf(cell as typeof cell & { formula: string });
          formulas.push(() => this.#told.push({ slot, at, formula, home: id }));
        }
      }
    }
    for (const [row, check] of this.#state.checks.entries()) {
      const at = { sheet: CHECKS_SHEET, row, column: 0 };
      const slot = this.#slot(at);
      const formula = formulaOf(check);
      formulas.push(() => this.#told.push({ slot, at, formula, home: CHECKS_SHEET }));
    }
    for (const tell of formulas) tell();
  }

  #compile(told: Told): void {
    delete told.compiled;
    try {
      if (this.#judge.overBudget) throw new NotCompiled('the size of all formulas');
      const root = this.#guarded(told);
      const state = this.#state;
      const here = {
        standing: standingIn(state, told.at),
        named: (reference: KeptReference) => namedBy(reference, told.home, state),
      };
      const compiled = compile(root, this.#around(told.home), this.#own(told), here);
      told.compiled = compiled;
      told.uses = compiled.cells;
    } catch (reason) {
      if (!(reason instanceof NotCompiled)) throw reason;
      this.#leave(told, reason.message);
    }
  }

  /** What a formula says, unless the engine would not be asked for it. */
  #guarded({ formula }: Told): Node {
    const { root, tokens } = formula;
    if (root === undefined) throw new NotCompiled('what cannot be read');
    if (guardFormula(tokens) !== undefined) throw new NotCompiled('its size');
    return root;
  }

  #leave(told: Told, word: string): void {
    const { slot, at } = told;
    told.uses = this.#usesOfOther(at);
    this.#left.push({ at, slot, word, readable: told.formula.root !== undefined });
    this.#values[slot] = this.#valueOfOther(at);
  }

  /** What another engine's formula uses; every value there is where it cannot be told. */
  #usesOfOther(at: At): readonly number[] | 'values' {
    const used = this.#judge.precedents(at);
    return used.length >= MANY ? 'values' : used.map((one) => this.#used(one));
  }

  #valueOfOther(at: At): Value {
    const value = this.#judge.exact(at);
    if (typeof value !== 'object' || value === null) return value;
    if (value.range) this.#several.add(this.#used(at));
    return failureOf(value, (root) => this.#used(root));
  }

  /** Where a cell holds several values, whoever uses it is left to the engine that sees them. */
  #leaveRanges(): void {
    for (let before = -1; before < this.#several.size; ) {
      before = this.#several.size;
      if (before === 0) return;
      for (const told of this.#told) {
        const { cells = [], ranges = [] } = told.compiled ?? {};
        const uses = (slot: number): boolean => this.#several.has(slot);
        if (!cells.some(uses) && !ranges.some((range) => range.cells.some(uses))) continue;
        delete told.compiled;
        this.#leave(told, 'a range');
      }
    }
  }

  /** Results of one formula may lie on cells that have none of their own. */
  #spread(): void {
    for (let i = 0; i < this.#empty.length; i += 1) {
      const slot = this.#empty[i] as number;
      const at = this.#places[slot];
      if (at === undefined || this.#judge.exact(at) === null) continue;
      const told: Told = { slot, at, formula: NOTHING, home: at.sheet };
      this.#told.push(told);
      this.#leave(told, 'results that spread');
    }
  }

  #around(home: string): Around {
    const system: UnitSystem = this.#state.head.units;
    return {
      system,
      cell: ({ sheet = home, from }) => {
        const at = cellOf(from, sheet, this.#state);
        return at === undefined ? undefined : this.#used(at);
      },
      range: (reference) => this.#range(reference, home),
      named: (name) => {
        const at = this.#state.named(name);
        return at === undefined ? undefined : this.#used(at);
      },
      constant: (value) => this.#constant(value),
      inLoop: (name) => this.#looped.has(name),
    };
  }

  #constant(value: number): number {
    let slot = this.#constants.get(value);
    if (slot === undefined) {
      slot = this.#places.length;
      this.#places.push(undefined);
      this.#values.push(value);
      this.#constants.set(value, slot);
    }
    return slot;
  }

  #used(at: At): number {
    const before = this.#places.length;
    const slot = this.#slot(at);
    if (this.#places.length > before) this.#empty.push(slot);
    return slot;
  }

  #range({ sheet = '', from, to }: KeptReference, home: string): Rectangle | 'gone' | 'unfit' {
    if (to === undefined) return 'unfit';
    if (from.row === undefined || from.column === undefined) return 'unfit';
    const first = cellOf(from, sheet || home, this.#state);
    const last = cellOf(to, sheet || home, this.#state);
    if (first === undefined || last === undefined) return 'gone';
    if (last.row < first.row || last.column < first.column) return 'unfit';
    return this.#rectangle(first, last);
  }

  #rectangle(first: At, last: At): Rectangle {
    const key = `${first.sheet} ${first.row} ${first.column} ${last.row} ${last.column}`;
    const known = this.#ranges.get(key);
    if (known !== undefined) return known;
    const width = last.column - first.column + 1;
    const cells = new Int32Array(width * (last.row - first.row + 1));
    for (let i = 0; i < cells.length; i += 1) {
      const row = first.row + Math.floor(i / width);
      cells[i] = this.#used({ sheet: first.sheet, row, column: first.column + (i % width) });
    }
    const range = { key, cells, width };
    this.#ranges.set(key, range);
    return range;
  }

  #own({ formula, home }: Told): readonly OwnTable[] {
    if (this.#state.tables.length === 0) return [];
    return ownAreasOf(formula, home, this.#state).map(({ kind, sheet, header, last }) => ({
      kind,
      area: this.#rectangle(
        { sheet, row: header, column: 0 },
        { sheet, row: last, column: OWN_COLUMNS - 1 },
      ),
    }));
  }

  /** Puts all nodes in order: cells, then the ranges that formulas use. */
  #lay(): { readonly program: Program; readonly loop: Int32Array } {
    const cells = this.#places.length;
    const numberOf = new Map<string, number>();
    const lists: (readonly number[] | undefined)[] = new Array(cells).fill(undefined);
    const work: (Closure | undefined)[] = new Array(cells).fill(undefined);
    const fast: (Fast | undefined)[] = new Array(cells).fill(undefined);
    const formulas = new Set(this.#told.map(({ slot }) => slot));
    const values = this.#places.flatMap((_, slot) => (formulas.has(slot) ? [] : slot));
    for (const { slot, compiled, uses: told = [] } of this.#told) {
      const uses = told === 'values' ? values : told;
      const ranges = (compiled?.ranges ?? []).map((range) => {
        let node = numberOf.get(range.key);
        if (node === undefined) {
          node = lists.length;
          numberOf.set(range.key, node);
          lists.push([...range.cells]);
        }
        return node;
      });
      lists[slot] = ranges.length === 0 ? uses : [...uses, ...ranges];
      work[slot] = compiled?.work;
      fast[slot] = compiled?.fast;
    }
    const packedUses = packed(lists);
    const users = turned(packedUses);
    const { order, loop } = ordered(packedUses);
    const rank = new Int32Array(order.length);
    for (const [i, node] of order.entries()) rank[node] = i;
    for (let slot = 0; slot < cells; slot += 1) {
      if (loop[slot] === 0) continue;
      work[slot] = undefined;
      fast[slot] = undefined;
    }
    return { program: { cells, order, rank, users, uses: packedUses, work, fast }, loop };
  }

  /** A name whose cell lies in a loop with a formula that uses it is part of the loop. */
  #findLoopedNames(loop: Int32Array): boolean {
    for (const { slot, compiled } of this.#told) {
      if (loop[slot] === 0) continue;
      for (const name of compiled?.names ?? []) {
        const at = this.#state.named(name);
        const target = at === undefined ? undefined : this.#slots.get(this.#key(at));
        if (target !== undefined && loop[target] === loop[slot]) this.#looped.add(name);
      }
    }
    return this.#looped.size > 0;
  }
}

const NOTHING: Formula = { tokens: [], root: undefined };
