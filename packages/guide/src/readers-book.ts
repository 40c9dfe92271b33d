import {
  type At,
  type BookDocument,
  BookState,
  type CellDocument,
  CHECKS_SHEET,
  type CheckDocument,
  formulaOf,
  KNOWN_NAMES,
  keptByIds,
  namesInSentence,
  READERS,
} from '@kerfbook/document';
import { cellsOf, keyOf, rowsOf, Uses } from './readers-uses.ts';

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
  'cut',
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

/** Tables that the page does not read, and that are the maker's own: what was asked and tried, and how long it took. */
const MAKERS_OWN: readonly string[] = ['studies', 'variants', 'hours'];
/** Tables that go with the costs. */
const OF_COSTS: readonly string[] = ['operations', 'prices'];

/**
 * The workbook that goes into a page for readers: a page that is handed out cannot be taken back.
 *
 * Never in it: customer, job, due, agreed, terms, letterhead, what it came from, the state that was handed out last, and
 * tables of studies, variants and hours worked, but for what formulas elsewhere read of them. With `costs` hidden, only
 * cells that what is shown rests on, with the words that say what they are: tables (prices of the stock stay: the cutting
 * plan is chosen by them; operations and the price list go), inputs that are opened, names that the page reads, numbers in
 * the steps, and checks that rest on no other amounts. With `notes` hidden, no notes, no remarks and nothing about the
 * workbook. Ids of sheets, rows and columns stay, so that every formula means what it meant.
 *
 * A check rests on an amount where its sentence says one, or where it cannot be worked out without one: the page would have
 * to carry it. Which ones those are is told by `checksKept`; their words in a second language go with them.
 */
export function bookForReaders(document: BookDocument): BookDocument {
  const state = keptByIds(BookState.of(document));
  const hides = new Set(document.guide?.hides ?? []);
  const aside = new Aside(state, hides.has('costs'));
  const shown = hides.has('costs') ? new Shown(state, aside) : undefined;
  const noNotes = hides.has('notes');
  // What is looked up in a list of prices that readers do not see says nothing to them about its columns.
  const unseen = new Set(
    shown === undefined
      ? []
      : state.tables
          .filter(({ kind }) => OF_COSTS.includes(kind))
          .flatMap((table) => cellsOf(state, table).map(keyOf)),
  );
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
        const left = aside.leaves(at)
          ? undefined
          : cellFor(cell, at, shown, noNotes || unseen.has(keyOf(at)));
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
    tables: kept.tables.filter(
      (table) =>
        !aside.kinds.includes(table.kind) ||
        // A price that is shown is looked up in the list.
        (table.kind === 'prices' && cellsOf(state, table).every((at) => shown?.rests(at))),
    ),
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
  const state = keptByIds(BookState.of(document));
  return new Shown(state, new Aside(state, true)).kept;
}

const isMoney = (cell: CellDocument | undefined): boolean =>
  cell?.quantity?.startsWith('money') === true;

/** Cells of tables that readers do not get. */
class Aside {
  /** Of what kinds such tables are. */
  readonly kinds: readonly string[];
  readonly #left: ReadonlySet<string>;

  constructor(state: BookState, hidesCosts: boolean) {
    this.kinds = hidesCosts ? [...MAKERS_OWN, ...OF_COSTS] : MAKERS_OWN;
    const left = new Set(
      state.tables
        .filter(({ kind }) => this.kinds.includes(kind))
        .flatMap((table) => cellsOf(state, table).map(keyOf)),
    );
    this.#left = left.size === 0 ? left : without(left, readElsewhere(state, left));
  }

  leaves(at: At): boolean {
    return this.#left.has(keyOf(at));
  }
}

/** What checks, names that the page reads and cells that are not left out rest on. */
function readElsewhere(state: BookState, left: ReadonlySet<string>): ReadonlySet<string> {
  const uses = new Uses(state);
  const begin = state.sheets.flatMap(({ id, rows, columns }) =>
    rows.flatMap((_, row) => columns.map((__, column): At => ({ sheet: id, row, column }))),
  );
  const read = new Set<string>();
  uses.follow(
    begin.filter((at) => !left.has(keyOf(at))),
    read,
  );
  uses.follow(
    [...namesRead(state.head), ...(state.head.guide?.inputs ?? [])].flatMap((name) =>
      uses.named(name),
    ),
    read,
  );
  for (const check of state.checks) uses.follow(uses.usedIn(formulaOf(check), CHECKS_SHEET), read);
  return read;
}

const without = (all: ReadonlySet<string>, some: ReadonlySet<string>): ReadonlySet<string> =>
  new Set([...all].filter((one) => !some.has(one)));

/** Which cells readers see where costs are hidden. */
class Shown {
  readonly #state: BookState;
  readonly #uses: Uses;
  readonly #aside: Aside;
  /** Cells that what is shown rests on, by their keys. */
  readonly #rests: ReadonlySet<string>;
  /** The checks that may be shown. */
  readonly checks: readonly CheckDocument[] & BookDocument['checks'];
  /** Those that may not. */
  readonly kept: readonly KeptCheck[];

  constructor(state: BookState, aside: Aside) {
    this.#state = state;
    this.#uses = new Uses(state);
    this.#aside = aside;
    const rests = new Set<string>();
    this.#uses.follow(this.#begin(), rests);
    const checks: CheckDocument[] = [];
    const kept: KeptCheck[] = [];
    for (const check of state.checks) {
      const said = this.#with(
        rests,
        namesInSentence(check.says).flatMap((name) => this.#uses.named(name)),
      );
      const all = said && this.#with(said, this.#uses.usedIn(formulaOf(check), CHECKS_SHEET));
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
    this.#uses.follow(cells, more);
    const amounts = [...more].some((key) => !rests.has(key) && isMoney(this.#cellOf(key)));
    return amounts ? undefined : more;
  }

  /** The rows of the words in a second language, their cells each. */
  #wordRows(): readonly (readonly At[])[] {
    return this.#state.tables.flatMap((table) => {
      if (table.kind !== 'words') return [];
      const columns = this.#state.sheet(table.sheet)?.columns ?? [];
      return rowsOf(this.#state, table).map((row) =>
        columns.map((_, column) => ({ sheet: table.sheet, row, column })),
      );
    });
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
      if (table.kind === 'words' || this.#aside.kinds.includes(table.kind)) continue;
      const header = this.#state.rowIndex(table.sheet, table.header) ?? 0;
      for (const at of cellsOf(this.#state, table)) {
        begin.push(at);
        if (table.kind !== 'steps') continue;
        const head = this.#state.cell({ ...at, row: header })?.value;
        const isNames = typeof head === 'string' && head.trim().toLowerCase() === 'measure';
        begin.push(...this.#spokenOf(at, isNames));
      }
    }
    for (const name of head.guide?.inputs ?? []) begin.push(...this.#uses.named(name));
    for (const name of namesRead(head)) {
      begin.push(...this.#uses.named(name).filter((at) => !isMoney(this.#state.cell(at))));
    }
    for (const text of [head.guide?.before, head.guide?.after, head.guide?.credits]) {
      begin.push(...namesInSentence(text ?? '').flatMap((name) => this.#uses.named(name)));
    }
    return begin;
  }

  /** Cells that a text speaks of: in braces, and under "measure" by their names alone. */
  #spokenOf(at: At, isNames: boolean): readonly At[] {
    const cell = this.#state.cell(at);
    const says = [cell?.value, cell?.formula].filter((one) => typeof one === 'string').join(' ');
    const names = isNames ? (says.match(/[A-Za-z_][\w.]*/g) ?? []) : namesInSentence(says);
    return names.flatMap((name) => this.#uses.named(name));
  }

  #cellOf(key: string): CellDocument | undefined {
    const [sheet = '', row, column] = key.split(' ');
    return this.#state.cell({ sheet, row: Number(row), column: Number(column) });
  }
}

/** Names that the page reads in this workbook. */
const namesRead = (head: BookState['head']): readonly string[] => [
  ...READERS.filter((reader) => reader !== 'customer-page').flatMap((reader) =>
    KNOWN_NAMES[reader].names.map(({ name }) => name),
  ),
  ...ALSO_READ,
  ...(head.results ?? []),
];
