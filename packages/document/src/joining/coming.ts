import type {
  BookDocument,
  CellDocument,
  CheckDocument,
  RowDocument,
  SheetDocument,
} from '../format/schema.ts';
import { LIMITS } from '../format/schema.ts';
import { nameKey, numbered } from '../formula/names.ts';
import { freeSheetName, freshId, type MakeId } from '../state/ids.ts';
import type { Meeting } from './meetings.ts';
import { type Home, homeKey, namedCells } from './named.ts';
import { type Carrying, carriedCell, carriedCheck, carriedFormula, type Placed } from './refer.ts';
import type { TableMove } from './tables.ts';

/** What was made out of two workbooks before they are put together. */
export interface Plan {
  readonly moves: readonly TableMove[];
  readonly meetings: readonly Meeting[];
  readonly make: MakeId;
  /** A workbook whose ids are taken too. */
  readonly beside: BookDocument;
}

/** A workbook on its way into another one. */
export class Coming {
  /** Where the cells stand that follow another one. */
  readonly linkOf = new Map<Meeting, Home>();
  /** New names of cells that are kept apart; nothing where there was none free. */
  readonly renames = new Map<Meeting, string | undefined>();
  readonly #book: BookDocument;
  readonly #other: BookDocument;
  readonly #moves: readonly TableMove[];
  readonly #make: MakeId;
  readonly #beside: BookDocument;
  /** Ids there by those of the sheets that come in. */
  readonly #ids = new Map<string, string>();
  /** Meetings by where the cell that comes in stood. */
  readonly #met: ReadonlyMap<string, Meeting>;
  /** The same by where the cell there stands. */
  readonly #metThere: ReadonlyMap<string, Meeting>;
  readonly #carrying: Carrying;
  #come: readonly SheetDocument[] | undefined;

  constructor(book: BookDocument, other: BookDocument, { moves, meetings, make, beside }: Plan) {
    this.#book = book;
    this.#other = other;
    this.#moves = moves;
    this.#make = make;
    this.#beside = beside;
    const taken = new Set([...book.sheets, ...beside.sheets].map(({ id }) => id));
    for (const { id } of other.sheets) {
      const next = taken.has(id) ? freshId(make, 's', (one) => taken.has(one)) : id;
      taken.add(next);
      this.#ids.set(id, next);
    }
    const names = new Set([...namedCells(book).keys(), ...namedCells(other).keys()]);
    for (const one of meetings) {
      if (one.fate !== 'apart') continue;
      const now = numbered(one.comes.name, (name) => names.has(nameKey(name)));
      if (now !== undefined) names.add(nameKey(now));
      this.renames.set(one, now);
    }
    const renamed = [...this.renames].flatMap(([{ comes }, now]): [string, string][] =>
      now === undefined ? [] : [[comes.name, now]],
    );
    this.#carrying = { moved: (reference) => this.#moved(reference), names: renamed };
    this.#met = new Map(meetings.map((one) => [homeKey(one.comes), one]));
    this.#metThere = new Map(meetings.map((one) => [homeKey(one.there), one]));
    this.#tellApart(meetings, renamed, names);
  }

  /** What only looks the same until its references are carried along is kept apart after all. */
  #tellApart(meetings: readonly Meeting[], renamed: [string, string][], names: Set<string>): void {
    for (;;) {
      const other = meetings.find((one) => one.fate === 'same' && !this.#isSame(one));
      if (other === undefined) return;
      other.fate = 'apart';
      const now = numbered(other.comes.name, (name) => names.has(nameKey(name)));
      this.renames.set(other, now);
      if (now === undefined) continue;
      names.add(nameKey(now));
      renamed.push([other.comes.name, now]);
    }
  }

  #isSame({ there, comes }: Meeting): boolean {
    const home = { was: comes.sheet, is: there.sheet };
    const text = carriedFormula(comes.cell.formula ?? '', home, this.#carrying);
    const was = this.#asWide(there.cell, there.sheet).formula ?? '';
    return withoutSpaces(text) === withoutSpaces(was);
  }

  #moved(reference: Placed): Placed | null {
    for (const { moved } of this.#moves) {
      const next = moved(reference);
      if (next !== undefined) return next;
    }
    const { from, to } = reference;
    if (to === undefined && from.row !== undefined && from.column !== undefined) {
      const key = homeKey({ sheet: reference.sheet, row: from.row, column: from.column });
      const met = this.#met.get(key);
      if (met?.fate === 'same') {
        const { sheet, row, column } = met.there;
        return { sheet, from: { ...from, row, column } };
      }
    }
    const sheet = this.#ids.get(reference.sheet);
    return sheet === undefined || this.#isLeft(reference.sheet) ? null : { ...reference, sheet };
  }

  /** A formula there, its whole tables as wide as they have become. */
  #asWide(cell: CellDocument, sheet: string): CellDocument {
    return carriedCell(cell, { was: sheet, is: sheet }, this.#there);
  }

  get #there(): Carrying {
    return {
      moved: (reference) => this.#moves.reduce((one, { widened }) => widened(one), reference),
      names: [],
    };
  }

  /** The sheets that were there, with the rows that came into their tables. */
  sheetsThere(): readonly SheetDocument[] {
    return this.#book.sheets.map((sheet) => {
      const moves = this.#moves.filter(({ into }) => into.sheet === sheet.id);
      const wide = moves.at(-1)?.sheet ?? sheet;
      const rows = moves.reduce(
        (all, move) => this.#withRows(all, move),
        wide.rows.map((row) => this.#rowThere(row, sheet.id)),
      );
      return { ...wide, rows };
    });
  }

  #rowThere(row: RowDocument, sheet: string): RowDocument {
    if (row.cells === undefined) return row;
    const cells = Object.entries(row.cells).map(([column, cell]): [string, CellDocument] => {
      const home = { sheet, row: row.id, column };
      const met = this.#metThere.get(homeKey(home));
      if (met?.fate !== 'leads') return [column, this.#asWide(cell, sheet)];
      this.linkOf.set(met, home);
      return [column, following(cell, met.comes.name)];
    });
    return { ...row, cells: Object.fromEntries(cells) };
  }

  /** Rows of a table that comes in, before the last row of the one they go into. */
  #withRows(rows: readonly RowDocument[], move: TableMove): RowDocument[] {
    const { into, coming, taken, heads } = move;
    return rows.flatMap((row) => {
      const cells = row.id === into.header ? heads : (taken.get(row.id) ?? {});
      const kept = taken.has(row.id) ? {} : row.cells;
      const one = { ...row, cells: { ...kept, ...this.#carried(cells, row.id, move) } };
      const changed = Object.keys(cells).length > 0 ? one : row;
      return row.id === into.last ? [...this.#rowsOf(coming, move), changed] : [changed];
    });
  }

  #rowsOf(rows: readonly RowDocument[], move: TableMove): RowDocument[] {
    return rows.map((row) => ({ ...row, cells: this.#carried(row.cells ?? {}, row.id, move) }));
  }

  #carried(
    cells: Readonly<Record<string, CellDocument>>,
    row: string,
    { from, into, rows, columns }: Pick<TableMove, 'from' | 'into' | 'rows' | 'columns'>,
  ): Record<string, CellDocument> {
    const was = keyOf(rows, row);
    return Object.fromEntries(
      Object.entries(cells).map(([column, cell]) => {
        const left = { sheet: from, row: was, column: keyOf(columns, column) };
        const home = { sheet: into.sheet, row, column };
        return [column, this.#arrived(cell, left, home)];
      }),
    );
  }

  /** A cell that comes in as it stands there. */
  #arrived(cell: CellDocument, left: Home, home: Home): CellDocument {
    const met = this.#met.get(homeKey(left));
    if (met?.fate === 'same') return following(cell, met.there.name);
    if (met?.fate === 'follows') {
      this.linkOf.set(met, home);
      return following(cell, met.there.name);
    }
    const carried = carriedCell(cell, { was: left.sheet, is: home.sheet }, this.#carrying);
    if (met?.fate !== 'apart') return carried;
    const { name: _name, ...nameless } = carried;
    const now = this.renames.get(met);
    return now === undefined ? nameless : { ...nameless, name: now };
  }

  /** The sheets that come in, but for what went into tables there and for what is there already. */
  sheetsThatCome(): readonly SheetDocument[] {
    this.#come ??= this.#arriving();
    return this.#come;
  }

  #arriving(): readonly SheetDocument[] {
    const titles = new Set(this.#book.sheets.map(({ name }) => nameKey(name)));
    return this.#other.sheets.flatMap((sheet) => {
      if (this.#isLeft(sheet.id)) return [];
      const id = this.#ids.get(sheet.id) ?? sheet.id;
      const name = freeSheetName(titles, sheet.name);
      titles.add(nameKey(name));
      const rows = this.#rowsThatStay(sheet).map((row) => {
        if (row.cells === undefined) return row;
        const cells = Object.entries(row.cells).map(([column, cell]): [string, CellDocument] => {
          const left = { sheet: sheet.id, row: row.id, column };
          return [column, this.#arrived(cell, left, { sheet: id, row: row.id, column })];
        });
        return { ...row, cells: Object.fromEntries(cells) };
      });
      return [{ ...sheet, id, name, rows }];
    });
  }

  /** Rows of a sheet that are not in a table there now, nor say what is worked out there already. */
  #rowsThatStay(sheet: SheetDocument): readonly RowDocument[] {
    const gone = new Set(
      this.#moves.filter(({ from }) => from === sheet.id).flatMap(({ rows }) => [...rows.keys()]),
    );
    const inTable = this.#tableRows(sheet);
    return sheet.rows.filter((row) => {
      if (gone.has(row.id) || inTable.has(row.id)) return false;
      const worth = Object.entries(row.cells ?? {}).filter(([, cell]) => isWorth(cell));
      if (worth.length === 0) return true;
      return worth.some(([column]) => {
        const met = this.#met.get(homeKey({ sheet: sheet.id, row: row.id, column }));
        return met?.fate !== 'same';
      });
    });
  }

  #tableRows({ id, rows }: SheetDocument): ReadonlySet<string> {
    const tables = this.#other.tables.filter(({ sheet }) => sheet === id);
    const moved = tables.filter(({ kind }) => this.#kindsMoved.has(kind));
    return new Set(
      moved.flatMap(({ header, last }) => {
        const [first, end] = [header, last].map((one) => rows.findIndex((row) => row.id === one));
        return rows.slice(first, (end ?? -1) + 1).map((row) => row.id);
      }),
    );
  }

  get #kindsMoved(): ReadonlySet<string> {
    return new Set(this.#moves.map(({ into }) => into.kind));
  }

  /** Whether nothing of a sheet is left but words, its table having gone into the one there. */
  #isLeft(id: string): boolean {
    const sheet = this.#other.sheets.find((one) => one.id === id);
    if (sheet === undefined || !this.#moves.some(({ from }) => from === id)) return false;
    return this.#rowsThatStay(sheet).every((row) => !Object.values(row.cells ?? {}).some(isWorth));
  }

  /** The checks there, then those that come in and say something else. */
  checks(): CheckDocument[] {
    const there = this.#book.checks.map((check) =>
      carriedCheck(check, { was: check.sheet ?? '', is: check.sheet ?? '' }, this.#there),
    );
    const ids = new Set([...there, ...this.#beside.checks].map(({ id }) => id));
    const known = new Set(there.map(sayingOf));
    const come = this.#other.checks.flatMap((check) => {
      const was = check.sheet ?? '';
      const is = this.#sheetNow(was);
      const { sheet: _sheet, ...rest } = carriedCheck(check, { was, is: is ?? '' }, this.#carrying);
      if (known.has(sayingOf(rest))) return [];
      const id = ids.has(rest.id) ? freshId(this.#make, 'k', (one) => ids.has(one)) : rest.id;
      ids.add(id);
      return [{ ...rest, id, ...(is === undefined ? {} : { sheet: is }) }];
    });
    return [...there, ...come];
  }

  /** Where the sheet of a check is now: that of its table, where nothing else was left of it. */
  #sheetNow(was: string): string | undefined {
    if (!this.#isLeft(was)) return this.#ids.get(was);
    return this.#moves.find(({ from }) => from === was)?.into.sheet;
  }

  /** Tables of kinds that were not there. */
  tables(): BookDocument['tables'] {
    const ids = new Set([...this.#book.tables, ...this.#beside.tables].map(({ id }) => id));
    return this.#other.tables.flatMap((table) => {
      if (this.#kindsMoved.has(table.kind)) return [];
      const id = ids.has(table.id) ? freshId(this.#make, 'k', (one) => ids.has(one)) : table.id;
      ids.add(id);
      return [{ ...table, id, sheet: this.#ids.get(table.sheet) ?? table.sheet }];
    });
  }

  /** Names of the cells that matter most: those there first. */
  results(): string[] {
    const renamed = new Map(this.#carrying.names);
    const come = (this.#other.results ?? []).map((name) => renamed.get(name) ?? name);
    const all = new Map<string, string>();
    for (const name of [...(this.#book.results ?? []), ...come]) {
      if (!all.has(nameKey(name))) all.set(nameKey(name), name);
    }
    return [...all.values()].slice(0, LIMITS.results);
  }
}

const withoutSpaces = (text: string): string => text.replaceAll(/\s+/g, '').toLowerCase();

const sayingOf = ({ formula, says }: Pick<CheckDocument, 'formula' | 'says'>): string =>
  `${withoutSpaces(formula)}\n${says}`;

function keyOf(map: ReadonlyMap<string, string>, value: string): string {
  for (const [key, one] of map) if (one === value) return key;
  return value;
}

/** Whether a cell is more than words that explain others. */
const isWorth = ({ formula, value, name, role }: CellDocument): boolean =>
  formula !== undefined || name !== undefined || role === 'input' || typeof value === 'number';

/** A cell that shows what the cell of this name holds, looking as it did. */
const following = (
  { quantity, show, remark, style }: CellDocument,
  name: string,
): CellDocument => ({
  formula: `=${name}`,
  ...(quantity === undefined ? {} : { quantity }),
  ...(show === undefined ? {} : { show }),
  role: 'calculated',
  ...(remark === undefined ? {} : { remark }),
  ...(style === undefined ? {} : { style }),
});
