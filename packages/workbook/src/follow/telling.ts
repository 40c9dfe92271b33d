import {
  type At,
  type BookState,
  CHECKS_SHEET,
  type Change,
  formulaCells,
  formulaOf,
  mentions,
  nameKey,
  type SheetState,
  type Step,
  type TableDocument,
  textOf,
} from '@kerfbook/document';
import { ownAreas, ownKindsIn } from '../book/own-tables.ts';
import type { Calculator } from '../engine/calculator.ts';
import type { Content } from '../engine/input.ts';
import { Affected, apart } from './affected.ts';
import { contentOf } from './content.ts';
import { checkContent, sheetContents } from './contents.ts';

type Kind<C extends Change['change']> = Change & { readonly change: C };
type Of<C extends Change['change'], L extends string> = Kind<C> & { readonly list: L };

/**
 * Tells HyperFormula what became of a workbook, change by change, each with the workbook as it was then
 * (rule H5). Nothing else tells it. Where it has to be built anew instead: `anew`.
 */
export class Telling {
  /** Cells whose values differ. */
  readonly differs = new Affected();
  anew = false;
  readonly #calculator: Calculator;
  readonly #at: (state: BookState) => void;
  #before!: BookState;
  #state!: BookState;
  /** Checks and tables are told once for changes of them that follow each other. */
  #checksBefore: number | undefined;
  #tablesBefore: readonly TableDocument[] | undefined;

  /** `at` hears which state is told of next: the engine asks for texts and the order of sheets. */
  constructor(calculator: Calculator, at: (state: BookState) => void) {
    this.#calculator = calculator;
    this.#at = at;
  }

  tell(steps: readonly Step[]): void {
    for (const { change, before, after } of steps) {
      const list = 'list' in change ? change.list : undefined;
      if (list !== 'checks' && list !== 'tables') this.#tellOwed();
      this.#before = before;
      this.#state = after;
      this.#at(after);
      // Where no sheet stayed there is nothing for the engine to go on from.
      if (after.sheets.length === 0) this.anew = true;
      if (this.anew) this.differs.structure = true;
      else this.#follow(change);
    }
    this.#tellOwed();
  }

  #follow(change: Change): void {
    if (change.change === 'cells') this.#cells(change);
    else if (change.change === 'head') this.#head(change);
    else this.#member(change);
  }

  #member(change: Exclude<Change, Kind<'cells' | 'head'>>): void {
    this.#tableFound();
    switch (change.list) {
      case 'checks':
        this.#checksBefore ??= this.#before.checks.length;
        return;
      case 'tables':
        this.#tablesBefore ??= this.#before.tables;
        return;
      case 'sheets':
        this.#sheets(change);
        return;
      default:
        this.#lines(change);
    }
  }

  #head({ set }: Kind<'head'>): void {
    // Entries are read, and refused, by both.
    if (set.units !== undefined || set.currency !== undefined) this.anew = true;
  }

  #cells({ sheet: id, cells }: Kind<'cells'>): void {
    const [was, is] = [this.#before.sheet(id), this.#state.sheet(id)];
    if (was === undefined || is === undefined) return;
    const contents: (At & { content: Content })[] = [];
    const names: Renamed[] = [];
    for (const { row: rowId, column: columnId } of cells) {
      const [row, column] = [is.rowIndex(rowId) ?? 0, is.columnIndex(columnId) ?? 0];
      const at = { sheet: id, row, column };
      const [old, cell] = [was.cell(row, column), is.cell(row, column)];
      if (old?.name !== cell?.name) names.push({ at, old: old?.name, name: cell?.name });
      const content = contentOf(cell, id, this.#state);
      if (!sameContent(content, contentOf(old, id, this.#before)))
        contents.push({ ...at, content });
    }
    this.#names(names);
    this.#set(contents);
  }

  #names(names: readonly Renamed[]): void {
    if (names.length === 0) return;
    const arriving = new Set(names.map(({ name }) => name && nameKey(name)));
    for (const { old } of names) {
      if (old !== undefined && !arriving.has(nameKey(old))) this.#name(old, null);
    }
    for (const { at, name } of names) if (name !== undefined) this.#name(name, at);
  }

  #name(name: string, at: At | null): void {
    this.differs.take(apart(this.#calculator.setName(name, at)));
  }

  #set(contents: readonly (At & { content: Content })[]): void {
    if (contents.length > 0) this.differs.take(apart(this.#calculator.setCells(contents)));
  }

  #sheets(change: Of<Kind<'insert' | 'remove' | 'order' | 'set'>['change'], 'sheets'>): void {
    switch (change.change) {
      case 'insert':
        this.#newSheets(new Set(change.items.map(({ id }) => id)));
        return;
      case 'remove':
        for (const id of change.ids) this.#sheetGone(id);
        return;
      case 'order':
        this.#calculator.reorder();
        return;
      case 'set':
        if (typeof change.set.name === 'string') {
          this.#calculator.renameSheet(change.id, change.set.name);
        }
    }
  }

  /** All of them are there before anything on them is told: they may use each other. */
  #newSheets(ids: ReadonlySet<string>): void {
    const sheets = this.#state.sheets.filter(({ id }) => ids.has(id));
    for (const { id, name } of sheets) {
      // The engine has a sheet of its own behind the makers', so that no sheet comes last there.
      this.#calculator.reorder();
      this.differs.take(apart(this.#calculator.addSheet({ id, name, cells: [] })));
    }
    for (const sheet of sheets) this.#namesIn(sheet, 0, sheet.rows.length);
    for (const sheet of sheets) {
      this.#set(
        sheetContents(sheet, this.#state)
          .flatMap((line, row) =>
            line.map((content, column) => ({ sheet: sheet.id, row, column, content })),
          )
          .filter(({ content }) => content !== null),
      );
    }
    this.#retell(ids);
  }

  #sheetGone(id: string): void {
    this.differs.take(apart(this.#calculator.removeSheet(id)));
    for (const { name, sheet } of this.#before.homes.values()) {
      if (sheet === id) this.#name(name, null);
    }
    // Told as #REF!: a sheet that takes the name later is another sheet.
    this.#retell(new Set([id]));
  }

  #lines(
    change: Of<Kind<'insert' | 'remove' | 'order' | 'set'>['change'], 'rows' | 'columns'>,
  ): void {
    switch (change.change) {
      case 'insert':
        this.differs.moved(change.sheet, this.#before, this.#state);
        if (change.list === 'rows') this.#newRows(change);
        else this.#newColumns(change);
        return;
      case 'remove':
        this.differs.moved(change.sheet, this.#before, this.#state);
        this.#linesGone(change);
        return;
      case 'order':
        // The engine knows no rows or columns that change places.
        this.anew = true;
        return;
      case 'set':
        return;
    }
  }

  #newRows({ sheet: id, items }: Of<'insert', 'rows'>): void {
    const [was, is] = [this.#before.sheet(id), this.#state.sheet(id)];
    const at = is?.rowIndex(items[0]?.id ?? '') ?? 0;
    if (was === undefined || is === undefined) return;
    // Nothing refers to rows past the end, so the engine has nothing to move for them.
    if (at < was.rows.length)
      this.differs.take(apart(this.#calculator.insertRows(id, at, items.length)));
    this.#namesIn(is, at, items.length);
    this.#set(
      items.flatMap((item, i) =>
        Object.entries(item.cells ?? {}).map(([columnId, cell]) => ({
          sheet: id,
          row: at + i,
          column: is.columnIndex(columnId) ?? 0,
          content: contentOf(cell, id, this.#state),
        })),
      ),
    );
    this.#retell(new Set(items.map((item) => item.id)));
  }

  #newColumns({ sheet: id, items }: Of<'insert', 'columns'>): void {
    const [was, is] = [this.#before.sheet(id), this.#state.sheet(id)];
    const at = is?.columnIndex(items[0]?.id ?? '') ?? 0;
    if (was === undefined) return;
    if (at < was.columns.length) {
      this.differs.take(apart(this.#calculator.insertColumns(id, at, items.length)));
    }
    this.#columnsOfOwn(id);
    this.#retell(new Set(items.map((item) => item.id)));
  }

  #linesGone({ list, sheet: id, ids }: Of<'remove', 'rows' | 'columns'>): void {
    const was = this.#before.sheet(id);
    if (was === undefined) return;
    const gone = new Set(ids);
    // From the end, so that what is left to go stands where it stood.
    for (const { at, count } of runsOf(was[list], gone).reverse()) {
      this.differs.take(
        apart(
          list === 'rows'
            ? this.#calculator.deleteRows(id, at, count)
            : this.#calculator.deleteColumns(id, at, count),
        ),
      );
    }
    for (const { name, sheet, row, column } of this.#before.homes.values()) {
      if (sheet === id && gone.has(list === 'rows' ? row : column)) this.#name(name, null);
    }
    if (list === 'columns') this.#columnsOfOwn(id);
    // A range that ended there is shorter in the engine; where nobody wrote it anew it is none.
    this.#retell(gone);
  }

  /** Tells the names that stand in these rows of a sheet. */
  #namesIn(sheet: SheetState, from: number, count: number): void {
    for (const [i, { cells }] of sheet.rows.slice(from, from + count).entries()) {
      for (const [id, { name }] of cells) {
        if (name === undefined) continue;
        this.#name(name, { sheet: sheet.id, row: from + i, column: sheet.columnIndex(id) ?? 0 });
      }
    }
  }

  /** The engine's range of an own table moves with columns; it is to be A to Z whatever comes. */
  #columnsOfOwn(sheet: string): void {
    const { tables } = this.#state;
    if (tables.some((table) => table.sheet === sheet)) this.#tellOwn(tables);
  }

  /** A table comes into being, or is none, where rows or a sheet that it names come or go. */
  #tableFound(): void {
    const { tables } = this.#before;
    if (tables.length === 0 || tables !== this.#state.tables) return;
    const found = (state: BookState): string =>
      ownAreas(state)
        .map(({ kind }) => kind)
        .join();
    if (found(this.#before) !== found(this.#state)) this.#tablesBefore ??= tables;
  }

  /** Tells again what formulas that mention these ids say: ids that came back heal them, ids that went break them. */
  #retell(ids: ReadonlySet<string>): void {
    const again = [];
    for (const { at, cell } of formulaCells(this.#state)) {
      if (cell.override !== undefined || !mentions(formulaOf(cell), ids)) continue;
      again.push({ ...at, content: contentOf(cell, at.sheet, this.#state) });
    }
    this.#set(again);
    const { checks } = this.#state;
    if (checks.some((check) => mentions(formulaOf(check), ids))) this.#tellChecks(checks.length);
  }

  /** Tells again what formulas look in first, where the workbook's own tables changed. */
  #tellOwn(before: readonly TableDocument[]): void {
    if (!before.concat(this.#state.tables).some(({ kind }) => kind !== 'parts')) return;
    const again = [];
    for (const { at, cell } of formulaCells(this.#state)) {
      if (cell.override !== undefined || ownKindsIn(formulaOf(cell)).size === 0) continue;
      again.push({ ...at, content: contentOf(cell, at.sheet, this.#state) });
    }
    this.#set(again);
    this.#tellChecks(this.#state.checks.length);
  }

  /** Tells the checks' formulas; `rows` is how many the engine may still hold from before. */
  #tellChecks(rows: number): void {
    const count = Math.max(rows, this.#state.checks.length);
    const cells = Array.from({ length: count }, (_, row) => ({
      sheet: CHECKS_SHEET,
      row,
      column: 0,
      content: checkContent(this.#state, row),
    }));
    if (cells.length > 0) this.#calculator.setCells(cells);
  }

  #tellOwed(): void {
    if (this.anew) return;
    const [checks, tables] = [this.#checksBefore, this.#tablesBefore];
    this.#checksBefore = undefined;
    this.#tablesBefore = undefined;
    if (checks !== undefined) this.#tellChecks(checks);
    if (tables !== undefined) this.#tellOwn(tables);
  }
}

interface Renamed {
  readonly at: At;
  readonly old: string | undefined;
  readonly name: string | undefined;
}

function sameContent(a: Content, b: Content): boolean {
  if (a === null || b === null || typeof a !== 'object' || typeof b !== 'object') return a === b;
  if ('text' in a) return 'text' in b && a.text === b.text;
  if ('refused' in a) return 'refused' in b && a.refused === b.refused;
  return 'formula' in b && textOf(a.formula) === textOf(b.formula);
}

/** Where members that go stand together. */
function runsOf(members: readonly { readonly id: string }[], gone: ReadonlySet<string>) {
  const runs: { at: number; count: number }[] = [];
  for (const [at, { id }] of members.entries()) {
    if (!gone.has(id)) continue;
    const last = runs.at(-1);
    if (last !== undefined && last.at + last.count === at) last.count += 1;
    else runs.push({ at, count: 1 });
  }
  return runs;
}
