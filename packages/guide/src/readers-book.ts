import {
  type At,
  type BookDocument,
  BookState,
  type CellDocument,
  CHECKS_SHEET,
  type CheckDocument,
  type Formula,
  formulaOf,
  type KeptReference,
  KNOWN_NAMES,
  keptByIds,
  nameKey,
  namesInSentence,
  nodesOf,
  READERS,
} from '@kerfbook/document';

/** What the pages ask for by name beside the names that are known everywhere. */
const ALSO_READ = [
  'apron_inside',
  'apron_setback',
  'apron_thickness',
  'band_thickness',
  'bearer_height',
  'bearer_length',
  'bearer_width',
  'button_thickness',
  'care',
  'case_depth',
  'case_edge',
  'clear_long',
  'clear_short',
  'coats',
  'column_length',
  'column_size',
  'corner_radius',
  'cover_depth',
  'door_height',
  'door_width',
  'doors',
  'edge_profile',
  'edge_radius',
  'edge_size',
  'edge_where',
  'end_shoulder',
  'end_tenon',
  'end_width',
  'foot_height',
  'foot_layer',
  'foot_thickness',
  'frame_thickness',
  'gap',
  'gap_dry',
  'gap_humid',
  'gap_least',
  'gap_now',
  'gap_today',
  'grit_first',
  'grit_last',
  'groove_edge',
  'groove_passes',
  'groove_wall',
  'groove_width',
  'head_height',
  'head_length',
  'head_screw_apart',
  'head_screw_end',
  'head_screws',
  'head_slot',
  'head_under',
  'hinge_count',
  'hinge_end',
  'leg_foot',
  'leg_shape',
  'leg_size',
  'moisture_build',
  'moisture_dry',
  'moisture_humid',
  'opening_height',
  'opening_width',
  'oval_pins',
  'overlay_used',
  'panel_boards',
  'panel_cut',
  'panel_held',
  'panel_opening',
  'panel_thickness',
  'peg_apart',
  'peg_diameter',
  'peg_line',
  'planed_thickness',
  'post_layer',
  'rabbet_width',
  'recoat_hours',
  'rough_thickness',
  'screw_out',
  'screw_sink',
  'screw_through_most',
  'screw_travel',
  'screws_across',
  'screws_along',
  'seat_length',
  'seat_width',
  'seats',
  'sheet_length',
  'sheet_nominal',
  'sheet_thickness',
  'sheet_width',
  'slot_cut',
  'slot_first',
  'slot_fourth',
  'slot_outer',
  'slot_second',
  'slot_third',
  'slot_under',
  'species',
  'stile_width',
  'support_length',
  'swivel_swing',
  'taper_angle',
  'taper_from',
  'taper_length',
  'tenon_count',
  'tenon_wide',
  'tongue_gap',
  'tongue_length',
  'tongue_stub',
  'tongue_width',
  'top_diameter',
  'top_length',
  'top_shape',
  'top_thickness',
  'top_width',
];

/** What is nobody's business but the maker's and the customer's, and what the workbook was before. */
const NEVER = ['customer', 'job', 'due', 'agreed', 'terms', 'letterhead', 'lineage'] as const;

/**
 * The workbook that goes into a page for readers: a page that is handed out cannot be taken back.
 *
 * Never in it: customer, job, due, agreed, terms, letterhead, what it came from, and the state that was handed out last.
 * With `costs` hidden, only cells that what is shown rests on, with the words that say what they are: tables (prices of
 * the stock stay: the cutting plan is chosen by them), inputs that are opened, names that the page reads, numbers in the
 * steps, and checks that rest on no other amounts. With `notes` hidden, no notes, no remarks and nothing about the
 * workbook. Ids of sheets, rows and columns stay, so that every formula means what it meant.
 *
 * A check rests on an amount where its sentence says one, or where it cannot be worked out without one: the page would have
 * to carry it. Which ones those are is told by `checksKept`; their words in a second language go with them.
 */
export function bookForReaders(document: BookDocument): BookDocument {
  const state = keptByIds(BookState.of(document));
  const hides = new Set(document.guide?.hides ?? []);
  const shown = hides.has('costs') ? new Shown(state) : undefined;
  const noNotes = hides.has('notes');
  const kept = state.document();
  const sheets = kept.sheets.map((sheet, s) => ({
    ...sheet,
    rows: sheet.rows.map((row, r) => {
      const cells = Object.entries(row.cells ?? {}).flatMap(([column, cell]) => {
        const at = {
          sheet: sheet.id,
          row: r,
          column: state.sheets[s]?.columnIndex(column) ?? 0,
        };
        const left = cellFor(cell, at, shown, noNotes);
        return left === undefined ? [] : [[column, left] as const];
      });
      const { cells: _cells, ...about } = row;
      return cells.length === 0 ? about : { ...about, cells: Object.fromEntries(cells) };
    }),
  }));
  return {
    ...headFor(kept, shown, noNotes),
    sheets,
    checks: shown === undefined ? kept.checks : shown.checks,
    tables: kept.tables,
  };
}

/** A cell as readers may have it; undefined where they may not. */
function cellFor(
  cell: CellDocument,
  at: At,
  shown: Shown | undefined,
  noNotes: boolean,
): CellDocument | undefined {
  if (shown?.has(at) === false) return undefined;
  if (!noNotes) return cell;
  // A note in a table is read with it; what a formula reads is no note any more.
  if (cell.role === 'note' && cell.formula === undefined && shown?.rests(at) !== true) {
    return undefined;
  }
  const { remark: _remark, ...rest } = cell;
  return rest;
}

function headFor(
  { sheets: _s, checks: _c, tables: _t, ...head }: BookDocument,
  shown: Shown | undefined,
  noNotes: boolean,
): Omit<BookDocument, 'sheets' | 'checks' | 'tables'> {
  const left: Partial<BookDocument> = { ...head };
  for (const key of NEVER) delete left[key];
  if (noNotes) delete left.about;
  const { published: _published, ...guide } = head.guide ?? {};
  if (head.guide !== undefined) left.guide = guide;
  if (shown !== undefined) {
    // What it promised may be among what was left out.
    delete left.promises;
    if (head.results !== undefined) {
      left.results = head.results.filter((name) => shown.hasName(name));
    }
  }
  return left as Omit<BookDocument, 'sheets' | 'checks' | 'tables'>;
}

/** A check that readers do not get, and why. */
export interface KeptCheck {
  /** Its id in the workbook. */
  readonly id: string;
  /** What it is called. */
  readonly name: string;
  /** `says`: its sentence has an amount in it. `asks`: it could not be worked out without one. */
  readonly why: 'says' | 'asks';
}

/** The checks that readers do not get, as costs are kept from them; none where costs are shown. */
export function checksKept(document: BookDocument): readonly KeptCheck[] {
  if (document.guide?.hides?.includes('costs') !== true) return [];
  return new Shown(keptByIds(BookState.of(document))).kept;
}

const isMoney = (cell: CellDocument | undefined): boolean =>
  cell?.quantity?.startsWith('money') === true;

/** Which cells readers see where costs are hidden. */
class Shown {
  readonly #state: BookState;
  /** Cells that what is shown rests on, by their keys. */
  readonly #rests: ReadonlySet<string>;
  /** The checks that may be shown. */
  readonly checks: readonly CheckDocument[] & BookDocument['checks'];
  /** Those that may not. */
  readonly kept: readonly KeptCheck[];

  constructor(state: BookState) {
    this.#state = state;
    const rests = new Set<string>();
    this.#follow(this.#begin(), rests);
    const checks: CheckDocument[] = [];
    const kept: KeptCheck[] = [];
    for (const check of state.checks) {
      const said = this.#with(
        rests,
        namesInSentence(check.says).flatMap((name) => this.#named(name)),
      );
      const all = said && this.#with(said, this.#usedIn(formulaOf(check), CHECKS_SHEET));
      if (all === undefined) {
        kept.push({ id: check.id, name: check.name, why: said === undefined ? 'says' : 'asks' });
        continue;
      }
      for (const key of all) rests.add(key);
      checks.push(check);
    }
    const silent = new Set(kept.map(({ id }) => state.checks.find((one) => one.id === id)?.says));
    for (const row of this.#wordRows()) {
      const says = row.map((at) => state.cell(at)?.value);
      if (says.some((words) => typeof words === 'string' && silent.has(words.trim()))) continue;
      const named = row.flatMap((at) => this.#spokenOf(at, false));
      const all = this.#with(rests, [...row, ...named]) ?? this.#with(rests, row) ?? rests;
      for (const key of all) rests.add(key);
    }
    this.#rests = rests;
    this.checks = checks;
    this.kept = kept;
  }

  /** What is shown with these cells as well; undefined where an amount would come with them that is not shown yet. */
  #with(rests: ReadonlySet<string>, cells: readonly At[]): Set<string> | undefined {
    const more = new Set(rests);
    this.#follow(cells, more);
    const amounts = [...more].some((key) => !rests.has(key) && isMoney(this.#cellOf(key)));
    return amounts ? undefined : more;
  }

  /** The rows of the words in a second language, their cells each. */
  #wordRows(): readonly (readonly At[])[] {
    return this.#state.tables.flatMap((table) => {
      if (table.kind !== 'words') return [];
      const columns = this.#state.sheet(table.sheet)?.columns ?? [];
      return this.#rowsOf(table).map((row) =>
        columns.map((_, column) => ({ sheet: table.sheet, row, column })),
      );
    });
  }

  /** The rows of a table, its head first. */
  #rowsOf({ sheet, header, last }: BookDocument['tables'][number]): readonly number[] {
    const [from, to] = [header, last].map((row) => this.#state.rowIndex(sheet, row));
    if (from === undefined || to === undefined) return [];
    return Array.from({ length: to - from + 1 }, (_, i) => from + i);
  }

  /** Whether a cell is seen: what is shown rests on it, or it says what such a cell is. */
  has(at: At): boolean {
    if (this.rests(at)) return true;
    const cell = this.#state.cell(at);
    if (cell === undefined || cell.formula !== undefined || typeof cell.value !== 'string') {
      return false;
    }
    if (cell.role === 'heading') return true;
    return cell.name === undefined && cell.role !== 'input' && this.#isBeside(at);
  }

  /** What is shown rests on it. */
  rests(at: At): boolean {
    return this.#rests.has(keyOf(at));
  }

  hasName(name: string): boolean {
    const at = this.#state.named(name);
    return at !== undefined && this.rests(at);
  }

  /** Something in its row is seen. */
  #isBeside({ sheet, row }: At): boolean {
    const wide = this.#state.sheet(sheet)?.columns.length ?? 0;
    for (let column = 0; column < wide; column += 1) {
      if (this.rests({ sheet, row, column })) return true;
    }
    return false;
  }

  /** Where following begins: tables, opened inputs, names that are read and are no amounts. */
  #begin(): readonly At[] {
    const { head, tables } = this.#state;
    const begin: At[] = [];
    for (const table of tables) {
      // What is said in a second language comes once it is known which checks are shown.
      if (table.kind === 'words') continue;
      const columns = this.#state.sheet(table.sheet)?.columns ?? [];
      const header = this.#state.rowIndex(table.sheet, table.header) ?? 0;
      for (const row of this.#rowsOf(table)) {
        for (const column of columns.keys()) {
          const at = { sheet: table.sheet, row, column };
          begin.push(at);
          if (table.kind !== 'steps') continue;
          const head = this.#state.cell({ ...at, row: header })?.value;
          const isNames = typeof head === 'string' && head.trim().toLowerCase() === 'measure';
          begin.push(...this.#spokenOf(at, isNames));
        }
      }
    }
    for (const name of head.guide?.inputs ?? []) begin.push(...this.#named(name));
    const read = [
      ...READERS.filter((reader) => reader !== 'customer-page').flatMap((reader) =>
        KNOWN_NAMES[reader].names.map(({ name }) => name),
      ),
      ...ALSO_READ,
      ...(head.results ?? []),
    ];
    for (const name of read) {
      begin.push(...this.#named(name).filter((at) => !isMoney(this.#state.cell(at))));
    }
    for (const text of [head.guide?.before, head.guide?.after, head.guide?.credits]) {
      begin.push(...namesInSentence(text ?? '').flatMap((name) => this.#named(name)));
    }
    return begin;
  }

  /** Cells that a text speaks of: in braces, and under "measure" by their names alone. */
  #spokenOf(at: At, isNames: boolean): readonly At[] {
    const cell = this.#state.cell(at);
    const says = [cell?.value, cell?.formula].filter((one) => typeof one === 'string').join(' ');
    const names = isNames ? (says.match(/[A-Za-z_][\w.]*/g) ?? []) : namesInSentence(says);
    return names.flatMap((name) => this.#named(name));
  }

  #named(name: string): readonly At[] {
    const at = this.#state.named(name);
    return at === undefined ? [] : [at];
  }

  #follow(begin: readonly At[], rests: Set<string>): void {
    const waiting = [...begin];
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      const key = keyOf(at);
      if (rests.has(key)) continue;
      rests.add(key);
      const cell = this.#state.cell(at);
      const formula = cell === undefined ? undefined : formulaOf(cell);
      if (formula !== undefined) waiting.push(...this.#usedIn(formula, at.sheet));
    }
  }

  #usedIn({ root }: Formula, home: string): readonly At[] {
    if (root === undefined) return [];
    const used: At[] = [];
    for (const node of nodesOf(root)) {
      if (node.kind === 'name') used.push(...this.#named(nameKey(node.name)));
      if (node.kind === 'reference') used.push(...this.#cellsOf(node.to, home));
    }
    return used;
  }

  #cellsOf({ sheet: id, from, to = from }: KeptReference, home: string): readonly At[] {
    const sheet = this.#state.sheet(id ?? home);
    if (sheet === undefined) return [];
    const [top, bottom] = between(from.row, to.row, sheet.rows.length, (row) =>
      sheet.rowIndex(row),
    );
    const [left, right] = between(from.column, to.column, sheet.columns.length, (column) =>
      sheet.columnIndex(column),
    );
    const cells: At[] = [];
    for (let row = top; row <= bottom; row += 1) {
      for (let column = left; column <= right; column += 1) {
        cells.push({ sheet: sheet.id, row, column });
      }
    }
    return cells;
  }

  #cellOf(key: string): CellDocument | undefined {
    const [sheet = '', row, column] = key.split(' ');
    return this.#state.cell({ sheet, row: Number(row), column: Number(column) });
  }
}

/** From where to where a reference goes; the whole sheet where it names no line. */
function between(
  one: string | undefined,
  other: string | undefined,
  count: number,
  at: (id: string) => number | undefined,
): readonly [number, number] {
  if (one === undefined || other === undefined) return [0, count - 1];
  const [a = 0, b = 0] = [at(one), at(other)];
  return [Math.min(a, b), Math.max(a, b)];
}

const keyOf = ({ sheet, row, column }: At): string => `${sheet} ${row} ${column}`;
