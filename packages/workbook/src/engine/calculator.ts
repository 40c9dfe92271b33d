import { type At, columnName, guardFormula, nameKey, type Token, textOf } from '@kerfbook/document';
import {
  DetailedCellError,
  ExportedCellChange,
  type ExportedChange,
  type HyperFormula,
  type RawCellContent,
  type SimpleCellAddress,
} from 'hyperformula';
import type { CellValue, ErrorValue } from '../api.ts';
import type { Evaluated, Pace } from '../port.ts';
import { pathOfCycle } from '../results/cycle.ts';
import { ErrorReader, type FoundError } from '../results/errors.ts';
import { LONGEST_TEXT } from '../results/meter.ts';
import { REFUSED_ENTRY } from '../results/said.ts';
import { cellSentence } from '../results/sentences.ts';
import { Budget } from './budget.ts';
import { engineConfig, prepareEngine } from './config.ts';
import { readDaysInConditions } from './day-conditions.ts';
import { readFailedResults } from './failed-results.ts';
import {
  type CalculatorInput,
  type CalculatorSheet,
  type Content,
  type FormulaContent,
  filledIn,
  reachOf,
} from './input.ts';
import { ONE_NAME } from './one.ts';
import { OWN_NAME } from './own.ts';
import { placesOf, usersIn } from './places.ts';
import { RangeCaches } from './range-caches.ts';
import { askNoEmptyArrays, letEdgesBeGone } from './range-edges.ts';
import { sameRaw } from './raw.ts';
import { emptyEngine } from './reader.ts';
import { Recalculation } from './recalculation.ts';
import { engineSheet, StandIns } from './stand-ins.ts';
import { type Watch, watchOf } from './watch.ts';

type CellContent = At & { readonly content: Content };

/**
 * The formula engine behind one door. It knows values, addresses and names, no document: what a
 * workbook means by a cell is decided elsewhere and handed in as {@link Content}. No content makes
 * it throw (rule V2); a formula it must not see or cannot read is an error with a sentence.
 */
export class Calculator {
  readonly #engine: HyperFormula;
  readonly #recalculation: Recalculation;
  readonly #budget: Budget;
  readonly #caches: RangeCaches;
  readonly #numberOf = new Map<string, number>();
  readonly #idOf: string[] = [];
  readonly #refused = new Map<string, string>();
  /** Formulas that look at more than values, with what they look at. */
  readonly #watched = new Map<string, CellContent & { readonly watch: Watch }>();
  /** Formulas whose results found no room. */
  readonly #blocked = new Set<string>();
  readonly #names = new Map<string, string>();
  readonly #standIns = new StandIns();
  readonly #errors: ErrorReader;
  #stale = false;

  private constructor({ system, formulaAt, sheets, order = () => sheets }: CalculatorInput) {
    const placeOf = (is: (sheet: { id: string; name: string }) => boolean): number | undefined =>
      order().findIndex(is) + 1 || undefined;
    const asked = {
      formulaText: ({ sheet, row, col }: SimpleCellAddress) => {
        const formula = formulaAt?.({ sheet: this.#idOf[sheet] ?? '', row, column: col });
        return formula && textOf(formula);
      },
      sheetCount: () => order().length,
      sheetPlace: (sheet: number) => placeOf(({ id }) => id === this.#idOf[sheet]),
      sheetCalled: (called: string) => placeOf(({ name }) => nameKey(name) === nameKey(called)),
    };
    prepareEngine();
    this.#engine = emptyEngine(engineConfig(system, asked));
    this.#recalculation = new Recalculation(this.#engine);
    this.#budget = new Budget(this.#engine);
    this.#caches = new RangeCaches(this.#engine);
    readDaysInConditions(this.#engine);
    letEdgesBeGone(this.#engine);
    askNoEmptyArrays(this.#engine);
    readFailedResults(this.#engine);
    this.#errors = new ErrorReader({
      nameOf: (id) => this.#engine.getSheetName(this.#numberOf.get(id) ?? -1) ?? id,
      sheetNames: () => this.#engine.getSheetNames().filter((name) => !name.startsWith('#')),
      names: () => [...this.#names.values()],
      formulaAt: (at) => formulaAt?.(at),
      engineFormula: (at) => this.#ifThere(at, (address) => this.#engine.getCellFormula(address)),
      precedents: (at) => this.#ifThere(at, () => this.precedents(at)) ?? [],
      inWords: (says) => this.#standIns.inWords(says),
    });
  }

  #ifThere<T>(at: At, ask: (address: SimpleCellAddress) => T): T | undefined {
    return this.#numberOf.has(at.sheet) ? ask(this.#address(at)) : undefined;
  }

  /** A calculator with all sheets and names of its input, all of it worked out. */
  static build(input: CalculatorInput): Calculator {
    return Calculator.#build(input, new Set());
  }

  /**
   * Formulas in the cells of `last` are told when all else is there. Where something is told that stands in
   * the way of results over several cells, HyperFormula forgets which formulas use the first of them.
   */
  static #build(input: CalculatorInput, last: ReadonlySet<string>): Calculator {
    const calculator = new Calculator(input);
    const engine = calculator.#engine;
    engine.suspendEvaluation();
    // Sheets and names first: a formula told before what it names exists costs a second reading.
    for (const sheet of input.sheets) calculator.#newSheet(sheet);
    for (const { name, at } of input.names) calculator.#tellName(name, at);
    for (const sheet of input.sheets) calculator.#reach(sheet);
    for (const sheet of input.sheets) {
      calculator.#tellSheet(sheet, last);
    }
    if (last.size === 0 && calculator.#recalculation.hasArraysInError) {
      const spread = new Set(calculator.#arrayFormulas(input.sheets));
      calculator.destroy();
      return Calculator.#build(input, spread);
    }
    for (const { at, content } of filledIn(input.sheets)) {
      if (last.has(keyOf(at))) calculator.#tell(at, content);
    }
    engine.resumeEvaluation();
    calculator.#budget.opened();
    if (calculator.#recalculation.hasArrays) calculator.#noteBlocked(input.sheets);
    calculator.#stale = false;
    return calculator;
  }

  /**
   * The engine no longer follows and has to be built anew from what is saved (rule A2). HyperFormula
   * loses count of results that go over several cells when they come, go or move: later changes throw.
   * Where rows, columns or sheets come and go, it loses sight of what {@link watchOf} names.
   * And which formulas are left out over budget is told by the order of the workbook alone.
   */
  get stale(): boolean {
    return this.#stale || this.#budget.stale;
  }

  /**
   * Carries changes out; what follows from them is worked out as far as the pace allows, and the rest
   * by {@link goOn}. Until then cells have the value they had before, new formulas none.
   */
  paced<T>(pace: Pace | undefined, change: () => T): T {
    return this.#recalculation.within(pace, change);
  }

  /** Some values are still to be worked out. */
  get pending(): boolean {
    return this.#recalculation.pending;
  }

  /** Goes on with what the pace left; without a pace, to the end. */
  goOn(pace?: Pace): readonly At[] {
    return this.#changed(this.#recalculation.goOn(pace));
  }

  /** Sets cells and returns exactly those cells whose value differs from before. */
  setCells(cells: readonly CellContent[]): readonly At[] {
    if (this.#stale) return [];
    if (this.#makesRoom(cells) || cells.some((cell) => this.#isSpread(cell))) return this.#lose();
    const watched = this.#watched.size === 0 ? [] : this.#contentWatched();
    if (watched.some(({ watch }) => watch === 'filled')) return this.#lose();
    const changed =
      cells.length === 1 && cells[0] !== undefined && watched.length === 0
        ? this.#setOne(cells[0])
        : this.#setSeveral(cells, watched);
    const spread = this.#recalculation.hasArrays && cells.some((cell) => this.#isSpread(cell));
    // To the engine a sheet is as long as it ever was.
    const filled = cells.some((cell) => this.#watched.get(keyOf(cell))?.watch === 'filled');
    return spread || filled ? this.#lose() : changed;
  }

  #contentWatched(): readonly (At & { readonly watch: Watch })[] {
    return [...this.#watched.values()].filter(({ watch }) => watch !== 'shape');
  }

  #setSeveral(cells: readonly CellContent[], watched: readonly At[]): readonly At[] {
    const before = new Map<string, unknown>();
    for (const cell of [...cells, ...watched]) before.set(keyOf(cell), this.#raw(cell));
    const changes = this.#together(() => {
      for (const cell of cells) this.#tell(cell, cell.content);
      for (const cell of watched) this.#recalculation.markDue(this.#address(cell));
    });
    return this.#changed(changes, (at) => {
      const key = keyOf(at);
      return before.has(key) && sameRaw(before.get(key), this.#raw(at));
    });
  }

  #setOne(cell: CellContent): readonly At[] {
    const before = this.#raw(cell);
    const changes = this.#tell(cell, cell.content);
    const same = sameRaw(before, this.#raw(cell));
    return this.#changed(
      changes,
      (at) => same && at.row === cell.row && at.column === cell.column && at.sheet === cell.sheet,
    );
  }

  /** Cells become empty, or no longer are, while results over several cells wait for room. */
  #makesRoom(cells: readonly CellContent[]): boolean {
    if (!this.#recalculation.hasArrays) return false;
    if (this.#blocked.size === 0 && !this.#recalculation.hasArraysInError) return false;
    return cells.some((cell) => cell.content === null || this.#raw(cell) === null);
  }

  /** A formula whose results go over several cells stands in the cell, or would, or they lie on it. */
  #isSpread(at: At): boolean {
    if (!this.#recalculation.hasArrays) return false;
    if (this.#engine.isCellPartOfArray(this.#address(at))) return true;
    const raw = this.#raw(at);
    return raw instanceof DetailedCellError && raw.type === 'SPILL';
  }

  #lose(): readonly At[] {
    this.#stale = true;
    return [];
  }

  /**
   * Makes room for `count` rows before the row `at`, counted from 0; cells whose values differ, by where
   * they are then.
   */
  insertRows(sheet: string, at: number, count: number): readonly At[] {
    return this.#shifted([count, 0], () => this.#engine.addRows(this.#number(sheet), [at, count]));
  }

  /** Takes `count` rows out from the row `at` on, counted from 0; cells whose values differ. */
  deleteRows(sheet: string, at: number, count: number): readonly At[] {
    return this.#shifted([0, 0], () => this.#engine.removeRows(this.#number(sheet), [at, count]));
  }

  /** Makes room for `count` columns before the column `at`, counted from 0; cells whose values differ. */
  insertColumns(sheet: string, at: number, count: number): readonly At[] {
    return this.#shifted([0, count], () =>
      this.#engine.addColumns(this.#number(sheet), [at, count]),
    );
  }

  /** Takes `count` columns out from the column `at` on, counted from 0; cells whose values differ. */
  deleteColumns(sheet: string, at: number, count: number): readonly At[] {
    return this.#shifted([0, 0], () =>
      this.#engine.removeColumns(this.#number(sheet), [at, count]),
    );
  }

  /** Sheets stand in another order, or will with the next one that is told. */
  reorder(): void {
    if (this.#loses) this.#stale = true;
  }

  /** Adds a sheet with its cells, the last one of all. */
  addSheet(sheet: CalculatorSheet): readonly At[] {
    if (this.#stale) return [];
    if (this.#loses) return this.#lose();
    this.#newSheet(sheet);
    this.#reach(sheet);
    return this.#changed(this.#together(() => this.#tellSheet(sheet)));
  }

  /** Takes a sheet out; cells of others whose values differ. */
  removeSheet(id: string): readonly At[] {
    return this.#shifted([0, 0], () => {
      const changes = this.#engine.removeSheet(this.#number(id));
      this.#numberOf.delete(id);
      return changes;
    });
  }

  /** Gives a sheet another name; no value differs by it. */
  renameSheet(id: string, name: string): void {
    if (this.#stale) return;
    if (this.#loses) this.#stale = true;
    else this.#engine.renameSheet(this.#number(id), name);
  }

  /** Gives a name to a cell, moves it there, or takes it away with `null`. */
  setName(name: string, at: At | null): readonly At[] {
    if (this.#stale) return [];
    if (at !== null) return this.#changed(this.#tellName(name, at));
    if (!this.#names.delete(nameKey(name))) return [];
    return this.#changed(this.#engine.removeNamedExpression(this.#standIns.of(name)));
  }

  /** What a cell has, rounded as values are shown; nothing may be asked of a sheet that is not there. */
  value(at: At): CellValue {
    return this.#valueOf(this.#raw(at), at);
  }

  /** What a cell holds to the last digit, which {@link value} rounds for showing. */
  exact(at: At): number | string | boolean | null | FoundError {
    const raw = this.#raw(at);
    if (raw instanceof DetailedCellError) {
      const found = this.#found(raw);
      return this.#recalculation.holdsRange(this.#address(at)) ? { ...found, range: true } : found;
    }
    if (typeof raw !== 'number') return raw ?? null;
    return this.#recalculation.exactNumber(this.#address(at)) ?? raw;
  }

  /** Formulas are left out since all of them together cost too much (rule B2). */
  get overBudget(): boolean {
    return this.#budget.over;
  }

  /** A formula of its own, as if it stood on `sheet`; nothing changes. */
  evaluate(formula: readonly Token[], sheet: string, own?: readonly Token[]): Evaluated {
    const fault = guardFormula(formula);
    if (fault !== undefined) return errorValue('#ERROR!', fault.says);
    if (this.pending) throw new Error('values are left to be worked out first');
    try {
      const result = this.#engine.calculateFormula(
        this.#engineFormula({ formula, ...(own === undefined ? {} : { own }) }),
        this.#number(sheet),
      );
      if (!Array.isArray(result)) return this.#valueOf(result, undefined, formula);
      const rows = result.map((row) => row.map((raw) => this.#valueOf(raw, undefined, formula)));
      return { kind: 'array', rows };
    } catch {
      return errorValue('#ERROR!', this.#errors.unreadable(formula));
    }
  }

  /** Cells that a cell's formula uses directly. Ranges are listed cell by cell, up to a bound. */
  precedents(at: At): readonly At[] {
    const found = this.#engine.getCellPrecedents(this.#address(at));
    return placesOf(this.#engine, found, this.#idOf);
  }

  /** Cells whose formulas use a cell directly, by address, range or name. */
  dependents(at: At): readonly At[] {
    const found = usersIn(this.#engine, this.#address(at));
    return placesOf(this.#engine, found, this.#idOf).filter((one) => sameAt(one, at) === false);
  }

  /** The chain of cells from a cell in a loop back to itself; empty where there is none. */
  cyclePath(at: At): readonly At[] {
    return pathOfCycle(at, (one) => this.precedents(one));
  }

  /** Lets go of the engine; nothing may be asked after it. */
  destroy(): void {
    this.#engine.destroy();
  }

  /** What comes of rows, columns or sheets that come and go is lost on the engine. */
  get #loses(): boolean {
    return this.#recalculation.hasArrays || this.#watched.size > 0 || this.#refused.size > 0;
  }

  /** Cells told to stand elsewhere, with so many rows and columns put in between. */
  #shifted(
    [rows, columns]: readonly [number, number],
    shift: () => ExportedChange[],
  ): readonly At[] {
    this.#budget.shifted(rows, columns);
    if (this.#stale) return [];
    if (this.#loses) return this.#lose();
    // What is left is done first, and what follows at once: the engine moves its cells when it looks
    // at them next, and an error that began on a sheet that is gone cannot be told.
    const left = this.#recalculation.goOn();
    const followed = this.paced(undefined, shift);
    this.#caches.clear();
    return this.#changed([...left, ...followed]);
  }

  /**
   * Several things told, worked out once. The engine's own batches keep, and search through, a list
   * of all that was undone in them even where nothing is to be undone: 200,000 cells took minutes.
   */
  #together(tell: () => void): ExportedChange[] {
    this.#engine.suspendEvaluation();
    try {
      tell();
    } catch (error) {
      this.#engine.resumeEvaluation();
      throw error;
    }
    return this.#engine.resumeEvaluation();
  }

  #newSheet({ id, name }: CalculatorSheet): void {
    const number = this.#engine.getSheetId(this.#engine.addSheet(name));
    if (number === undefined) throw new Error(`the engine has no sheet ${name}`);
    this.#numberOf.set(id, number);
    this.#idOf[number] = id;
  }

  /** How far a sheet is used, which the cost of whole rows and columns rests on. */
  #reach(sheet: CalculatorSheet): void {
    this.#budget.reach(this.#number(sheet.id), ...reachOf(sheet));
  }

  #tellSheet(sheet: CalculatorSheet, last: ReadonlySet<string> = new Set()): void {
    const number = this.#number(sheet.id);
    const rows = sheet.cells.map((line, row) =>
      line.map((content, column) => {
        const at = { sheet: sheet.id, row, column };
        return last.has(keyOf(at)) ? null : this.#contentOrRefusal(content, at);
      }),
    );
    if (!rows.some((row) => row.length > 0)) return;
    try {
      this.#engine.setSheetContent(number, rows);
    } catch {
      // One formula that the engine throws at must not keep a workbook from being opened.
      for (const { at, content } of filledIn([sheet])) {
        if (!last.has(keyOf(at))) this.#tell(at, content);
      }
    }
  }

  #tell(at: At, content: Content): ExportedChange[] {
    const address = this.#address(at);
    if (content !== null) this.#budget.reach(address.sheet, at.row + 1, at.column + 1);
    if (this.#budget.over && this.#engine.doesCellHaveFormula(address)) this.#budget.changed();
    try {
      return this.#engine.setCellContents(address, this.#engineContent(content, at));
    } catch {
      // An engine that lost count throws at formulas that another takes.
      this.#stale = true;
      return this.#engine.setCellContents(address, this.#refusal(content, at));
    }
  }

  #contentOrRefusal(content: Content, at: At): RawCellContent {
    try {
      return this.#engineContent(content, at);
    } catch {
      return this.#refusal(content, at);
    }
  }

  /** The guard bounds what reaches the engine; whatever still fails must not stay half set. */
  #refusal(content: Content, at: At): string {
    const formula = content !== null && typeof content === 'object' && 'formula' in content;
    this.#refused.set(keyOf(at), this.#errors.unreadable(formula ? content.formula : []));
    return REFUSED;
  }

  #engineContent(content: Content, at: At): RawCellContent {
    if (this.#refused.size > 0) this.#refused.delete(keyOf(at));
    if (this.#watched.size > 0) this.#watched.delete(keyOf(at));
    if (content === null || typeof content !== 'object') return content;
    if ('text' in content) return `'${content.text}`;
    if ('refused' in content) {
      this.#refused.set(keyOf(at), content.refused);
      return `=${REFUSED_ENTRY}()`;
    }
    const fault = guardFormula(content.formula);
    if (fault === undefined) {
      const watch = watchOf(content.formula);
      if (watch !== undefined) this.#watched.set(keyOf(at), { ...at, content, watch });
      return this.#engineFormula(content);
    }
    this.#refused.set(keyOf(at), fault.says);
    return REFUSED;
  }

  #tellName(name: string, at: At): ExportedChange[] {
    const key = nameKey(name);
    const home = engineSheet(this.#engine.getSheetName(this.#number(at.sheet)) ?? '');
    const expression = `=${home}!$${columnName(at.column)}$${at.row + 1}`;
    const known = this.#names.get(key);
    this.#names.set(key, name);
    const [word, before] = [this.#standIns.of(name), known && this.#standIns.of(known)];
    if (before === word) return this.#engine.changeNamedExpression(word, expression);
    const gone = before === undefined ? [] : this.#engine.removeNamedExpression(before);
    return [...gone, ...this.#engine.addNamedExpression(word, expression)];
  }

  /** Notes formulas whose results find no room: they are worked out anew when cells become empty. */
  #noteBlocked(sheets: readonly CalculatorSheet[]): void {
    for (const { at, content } of filledIn(sheets)) {
      if (typeof content !== 'object' || !('formula' in content)) continue;
      const raw = this.#raw(at);
      if (raw instanceof DetailedCellError && raw.type === 'SPILL') this.#blocked.add(keyOf(at));
    }
  }

  /** The cells of formulas whose results go over several cells. */
  #arrayFormulas(sheets: readonly CalculatorSheet[]): readonly string[] {
    const filled = [...filledIn(sheets)].map(({ at }) => at);
    return [...this.#recalculation.arraysAmong(filled, (at) => this.#address(at))].map(keyOf);
  }

  #changed(changes: readonly ExportedChange[], unchanged?: (at: At) => boolean): readonly At[] {
    const result: At[] = [];
    for (const change of changes) {
      if (!(change instanceof ExportedCellChange)) continue;
      const { sheet, row, col } = change.address;
      const at = { sheet: this.#idOf[sheet] ?? '', row, column: col };
      if (unchanged?.(at) !== true) result.push(at);
    }
    return this.#recalculation.hasArrays ? this.#withSpilled(result) : result;
  }

  /** The engine names only the first cell of results over several cells that became an error. */
  #withSpilled(changed: readonly At[]): readonly At[] {
    const all = new Map(changed.map((at) => [keyOf(at), at]));
    for (const { sheet, row, column } of changed) {
      if (!this.#numberOf.has(sheet)) continue;
      const { rows, columns } = this.#recalculation.extentOf(this.#address({ sheet, row, column }));
      for (let i = 1; i < rows * columns; i += 1) {
        const at = { sheet, row: row + Math.floor(i / columns), column: column + (i % columns) };
        all.set(keyOf(at), at);
      }
    }
    return [...all.values()];
  }

  #raw(at: At) {
    const address = this.#address(at);
    return this.#recalculation.hasValue(address) ? this.#engine.getCellValue(address) : null;
  }

  #valueOf(raw: unknown, at: At | undefined, formula?: readonly Token[]): CellValue {
    switch (typeof raw) {
      case 'number':
        // The engine rounds what it hands out to 14 digits and loses a number next to nothing
        // (below about 1e-294) on the way.
        return { kind: 'number', number: Number.isNaN(raw) ? 0 : raw };
      case 'string':
        return raw.length > LONGEST_TEXT
          ? errorValue('#VALUE!', cellSentence('E18', LONGEST_TEXT))
          : { kind: 'text', text: raw };
      case 'boolean':
        return { kind: 'logical', logical: raw };
      default:
        break;
    }
    if (!(raw instanceof DetailedCellError)) return { kind: 'empty' };
    return { kind: 'error', error: this.errorOf(this.#found(raw), at, formula) };
  }

  /** An error as a maker reads it; `raw` is what cells hold where it was found. */
  errorOf(
    error: FoundError,
    at: At | undefined,
    formula?: readonly Token[],
    raw: (at: At) => unknown = (one) => this.#raw(one),
  ): ErrorValue {
    return this.#errors.read(error, {
      raw,
      refused: (root) => this.#refused.get(keyOf(root)),
      cycle: (root) => this.cyclePath(root),
      ...(at === undefined ? {} : { at }),
      ...(formula === undefined ? {} : { formula }),
    });
  }

  #found({ type, message, address }: DetailedCellError): FoundError {
    const place =
      address === undefined ? undefined : this.#engine.simpleCellAddressFromString(address, 0);
    const sheet = place === undefined ? undefined : this.#idOf[place.sheet];
    if (address === undefined) return { type, message };
    if (place === undefined || sheet === undefined) return { type, message, inName: true };
    return { type, message, root: { sheet, row: place.row, column: place.col } };
  }

  /** A formula as the engine reads it, inside the own tables it looks in first. */
  #engineFormula({ formula, own, one }: FormulaContent): string {
    // The engine takes a sheet that is not there for one to come, and loses count of it later.
    const inner = this.#standIns.formula(formula, (name) => this.#engine.doesSheetExist(name));
    if (own === undefined && one === undefined) return inner;
    // What cannot be read by itself must not become readable as arguments.
    if (!this.#engine.validateFormula(inner)) return inner;
    const call = inner.replace(/^\s*=/, '');
    const looking =
      own === undefined ? call : `${OWN_NAME}(${call},${this.#standIns.formula(own, () => true)})`;
    return one === undefined ? `=${looking}` : `=${ONE_NAME}(${looking})`;
  }

  #address({ sheet, row, column }: At): SimpleCellAddress {
    return { sheet: this.#number(sheet), row, col: column };
  }

  #number(sheet: string): number {
    const number = this.#numberOf.get(sheet);
    if (number === undefined) throw new RangeError(`no sheet ${sheet} in the engine`);
    return number;
  }
}

/** Stands in the engine for a formula that must not reach it: an error for all who use the cell. */
const REFUSED = '=KERFBOOK_REFUSED()';

const keyOf = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;
const sameAt = (a: At, b: At): boolean =>
  a.row === b.row && a.column === b.column && a.sheet === b.sheet;

function errorValue(word: '#ERROR!' | '#VALUE!', says: string): CellValue {
  return { kind: 'error', error: { word, says } };
}
