import type {
  Allow,
  At,
  BookDocument,
  CellDocument,
  CellStyle,
  CheckDocument,
  Edit,
  ErrorWord,
  Head,
  Place,
  RowGroup,
  Scalar,
  Show,
  TurnSteps,
} from '@kerfbook/document';
import type { OwnKind, Quantity, UnitSystem } from '@kerfbook/wood';
import type { Mark } from './book/marks.ts';
import type { Remembered } from './book/remembered.ts';
import type { ShopTable } from './book/shop-tables.ts';
import type { Pace } from './port.ts';

/** What a cell comes to. */
export type CellValue =
  | { readonly kind: 'empty' }
  | { readonly kind: 'number'; readonly number: number }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'logical'; readonly logical: boolean }
  | { readonly kind: 'error'; readonly error: ErrorValue };

/** An error: its word and why. */
export interface ErrorValue {
  /** What the cell shows; `#LIC!` is the engine's own, where it was given no licence. */
  readonly word: ErrorWord | '#LIC!';
  /** One plain sentence: what was wrong, what was expected, what to do. */
  readonly says: string;
  /** The cell where it began, where that is another cell. */
  readonly from?: At;
  /** Of cells that lead back to themselves: the way round, as its sentence writes it with arrows between. */
  readonly circle?: readonly OnCircle[];
}

/** A cell on the way round a circle; without one, the sign that some are left out. */
export interface OnCircle {
  /** As the sentence writes it: its address, with its sheet where that is another; or `…`. */
  readonly written: string;
  /** Where it is. */
  readonly at?: At;
}

/** How a value is shown. */
export interface Shown {
  /** The whole text, for a clipboard or a screen reader: `33 3/16`. */
  readonly text: string;
  /** A number with a fraction, in its parts, so that it can be drawn as a true fraction. */
  readonly fraction?: { readonly whole: string; readonly over: string; readonly under: string };
  /** The exact value, where the shown one is rounded. */
  readonly exact?: string;
  /** Where it stands in its cell: numbers at the end, words at the start, the rest in the middle. */
  readonly align: 'start' | 'end' | 'centre';
}

/** How a number is said in a sentence, without its unit; `own` is the number in the workbook's own unit. */
export type NumberSaid = (shown: Shown, unit: string, own: number) => string;

/** Something about a cell that its maker should look at. */
export interface Problem {
  /** Stable code of the catalogue. */
  readonly code: string;
  /** One plain sentence: what was wrong, what was expected, what to do. */
  readonly says: string;
  /** Entries of which each says one of the things that may have been meant. */
  readonly choices?: readonly string[];
}

/** Everything a grid, a panel or a printout needs to know of a cell. */
export interface CellView {
  /** Where it is, counted from 0. */
  readonly at: At;
  /** The same as it is written, without its sheet: `B7`. */
  readonly address: string;
  /** What it comes to, in the workbook's own units. */
  readonly value: CellValue;
  /** The same as it is written for people, without its unit. */
  readonly shown: Shown;
  /** What the editor opens with: what was typed, or the formula with A1 addresses. */
  readonly entry: string;
  /** The formula, also while an override hides its result. */
  readonly formula?: string | undefined;
  /** What was typed over its formula. */
  readonly override?: { readonly typed: string };
  /** What it is for; left out where nothing was said. */
  readonly quantity?: Quantity;
  /** The unit it shows, `''` where there is none. */
  readonly unit: string;
  /** Left out where nothing was said. */
  readonly role?: NonNullable<CellDocument['role']>;
  /** Its name; one cell of a workbook has it. */
  readonly name?: string;
  /** What its maker noted beside it. */
  readonly remark?: string;
  /** Which entries it takes. */
  readonly allow?: Allow;
  /** How it is asked to be written. */
  readonly show?: Show;
  /** How it looks. */
  readonly style?: CellStyle;
  /** What a failing check says of it. */
  readonly mark?: Mark | undefined;
  /** Entries that cannot be read or are not allowed; refused formulas. */
  readonly problem?: Problem;
  /** What in its formula does not go together; the cell computes all the same (rule M1). */
  readonly clash?: Problem | undefined;
}

/** An entry that a cell with a list takes. */
export interface Choice {
  /** What is put in the cell. */
  readonly text: string;
  /** Other names it is found by. */
  readonly also: readonly string[];
  /** What it is, in a word: a wood, a screw, a finish, or just a choice. */
  readonly noun: string;
}

/** A check as it stands now. */
export interface CheckState {
  /** Its id, which stays when it is renamed. */
  readonly id: string;
  /** What it is called. */
  readonly name: string;
  /** Id of the sheet beside whose name it is shown. */
  readonly sheet?: string;
  /** `unknown`: the check's own formula is in error. */
  readonly state: 'pass' | 'care' | 'stop' | 'unknown';
  /** Its sentence, names of cells replaced by what they show; its name while it passes. */
  readonly says: string;
  /** The cell whose error it cannot tell for; its sentence has the address. */
  readonly from?: At;
  /** The way round, where it is a circle that it cannot tell for. */
  readonly circle?: ErrorValue['circle'];
}

/** What an edit did. */
export interface Applied {
  /** It was carried out. */
  readonly ok: true;
  /** What was carried out, as changes by ids: what a log keeps. */
  readonly edit: Edit & { readonly do: 'change' };
  /** Takes it back, as long as nothing came after it. */
  readonly inverse: Edit & { readonly do: 'change' };
  /** Exactly the cells whose value, text or marks differ from before, each once. */
  readonly changed: readonly At[];
  /** Checks whose state or sentence differs from before. */
  readonly checks: readonly string[];
  /** Rows, columns, sheets or names changed: a grid draws anew. */
  readonly structure: boolean;
}

/** What came of going on with values that an edit left to be worked out. */
export interface Followed {
  /** Exactly the cells whose value, text or marks differ from before, each once. */
  readonly changed: readonly At[];
  /** Ids of the checks whose state or sentence differs from before. */
  readonly checks: readonly string[];
  /** Marks of checks changed at more cells than are named: a grid draws anew. */
  readonly structure: boolean;
}

/**
 * An edit made of edits that are carried out one by one, so that its maker sees how far it is and can stop
 * it. It is one step of undo; nothing else can be changed until it is kept or dropped.
 */
export interface LongEdit {
  /** It has begun. */
  readonly ok: true;
  /** Carries out one more edit, or refuses it and leaves those before it as they are. */
  apply(edit: Edit): Applied | Refused;
  /** Ends it; what all its edits did, as one. */
  keep(): Applied;
  /** Ends it as if it had never begun. */
  drop(): void;
}

/**
 * An edit that is tried until it fits, as when a number is pulled: each try takes the place of the one before
 * it, as if that had never been. It is one step of undo, that of its last try, and nothing else can be changed
 * until it is kept or dropped.
 */
export interface TrialEdit {
  /** It has begun. */
  readonly ok: true;
  /** Carries an edit out in the place of the last one tried, or refuses it and leaves that standing. */
  try(edit: Edit): Applied | Refused;
  /** Ends it with its last try; what differed meanwhile counts as changed. Nothing where nothing was tried. */
  keep(): Applied;
  /** Ends it as if it had never begun; what is otherwise than in its last try. */
  drop(): Applied;
}

/** An edit that was not carried out; nothing was changed. */
export interface Refused {
  /** Nothing was changed. */
  readonly ok: false;
  /** Stable code of the catalogue. */
  readonly code: string;
  /** One plain sentence: what was wrong, what was expected, what to do. */
  readonly says: string;
  /** What was thrown on the way, for who looks for its cause; never shown. */
  readonly thrown?: unknown;
}

/** What a cell is known by, wherever it stands. */
export interface CellIds {
  /** Id of its sheet. */
  readonly sheet: string;
  /** Id of its row. */
  readonly row: string;
  /** Id of its column. */
  readonly column: string;
}

/** A cell that comes to something else than before. */
export interface Moved {
  /** What it is known by. */
  readonly ids: CellIds;
  /** Where it stood when they were compared. */
  readonly at: At;
  /** What it came to before, in the workbook's own units. */
  readonly was: CellValue;
  /** What it came to then. */
  readonly is: CellValue;
  /** It has a formula. */
  readonly calculated: boolean;
}

/** A named cell. */
export interface NameView {
  /** As it was written. */
  readonly name: string;
  /** The cell it belongs to. */
  readonly at: At;
}

/** A sheet as it stands now. */
export interface SheetView {
  /** Its id, which stays when it is renamed or moved. */
  readonly id: string;
  /** What it is called; no other sheet of the workbook is. */
  readonly name: string;
  /** Out of the list of sheets. */
  readonly isHidden: boolean;
  /** How many rows it has. */
  readonly rows: number;
  /** How many columns it has. */
  readonly columns: number;
  /** Of each column in px; undefined where nobody set one. */
  readonly widths: readonly (number | undefined)[];
  /** Columns out of sight, counted from 0. */
  readonly hidden: readonly number[];
  /** Rows out of sight, counted from 0. */
  readonly hiddenRows: readonly number[];
  /** How many columns stay in view at the left. */
  readonly frozenColumns: number;
  /** How many rows stay in view at the top. */
  readonly frozenRows: number;
  /** Outer ones first. */
  readonly groups: readonly RowGroup[];
  /** Cells whose words may take several lines, wrapped ones and notes, by rows; the same list as long as they are. */
  readonly mayWrap: readonly Place[];
}

/** A table of the workbook where it is now. */
export interface TableView {
  /** Its id. */
  readonly id: string;
  /** Who reads it: drawings and plans, or functions that look in the maker's own figures. */
  readonly kind: ShopTable | OwnKind;
  /** Id of its sheet. */
  readonly sheet: string;
  /** Its row of heads, counted from 0. */
  readonly header: number;
  /** Its last row, counted from 0. */
  readonly last: number;
}

/** Why a cell has the value it has. */
export interface Explanation {
  /** The cell that is explained. */
  readonly at: At;
  /** As it is written, with its sheet: `Base!B7`. */
  readonly address: string;
  /** Its name, where it has one. */
  readonly name?: string;
  /** Its formula with addresses, where it has one. */
  readonly formula?: string;
  /** The formula with each reference replaced by what it shows. */
  readonly withNumbers?: string;
  /** Cells that its formula uses. */
  readonly uses: readonly Neighbour[];
  /** Cells whose formulas use it. */
  readonly usedBy: readonly Neighbour[];
  /** What else uses it: `the check "Knee room"`, `the parts table`, `the cutting plan`. */
  readonly alsoUsedBy: readonly string[];
  /** The inputs it finally rests on. */
  readonly rests: readonly Neighbour[];
  /** Names of the woodworking functions in the formula; `functionNote` says what they answer. */
  readonly functions: readonly string[];
  /**
   * Values of the trade's tables that it rests on, those of the cells before it too. None while values
   * are still to be worked out.
   */
  readonly tables: readonly TableValue[];
  /** Where it, or a cell before it, goes beyond what these values hold for, a sentence each. */
  readonly cautions: readonly string[];
  /** Sheets with tables of the maker's own that these functions look in first. */
  readonly looksIn: readonly string[];
  /** Why it is in error. */
  readonly error?: ErrorValue;
}

/** A value of the trade's tables, or an equation, with where it comes from. */
export interface TableValue {
  /** What it is of: `Oak, white: stiffness`. */
  readonly of: string;
  /** As the workbook shows such a value, with its unit; left out of an equation. */
  readonly shown?: string;
  /** How it was obtained, in words: `read`, `from memory`, `worked out`. */
  readonly how: string;
  /** The publication and its table. */
  readonly source: string;
  /** What is known against it. */
  readonly note?: string;
}

/** A cell that another one has to do with. */
export interface Neighbour {
  /** Where it is. */
  readonly at: At;
  /** As it is written, with its sheet: `Base!B7`. */
  readonly address: string;
  /** Its name, where it stands in a table, or what stands at the left of it. */
  readonly label: string;
  /** What it shows. */
  readonly shown: string;
}

/**
 * An open workbook. The one class apps talk to; nothing of HyperFormula shows through it.
 * `Workbook.open(document)` builds one from a checked document.
 */
export interface OpenWorkbook {
  /** The units of its formulas: inches and pounds, or millimetres and kilograms. */
  readonly units: UnitSystem;
  /** ISO 4217 code of its money. */
  readonly currency: string;
  /** What it is called. */
  readonly title: string;
  /** What is said of it as a whole: whom it is for, when it is due, what was agreed. */
  readonly head: Head;
  /**
   * Carries an edit out whole, or refuses it whole. `again`: one that was carried out before, from a
   * log; it is not held against what may be changed by hand. `cameIn`: one that was carried out elsewhere, alike, and no
   * step of undo here (rule U6).
   */
  apply(edit: Edit, how?: 'again' | TurnSteps): Applied | Refused;
  /**
   * Where one is given, `apply`, `undo`, `redo` and a long edit stop working values out once
   * it says no; `goOn` takes up the rest (rule C2). Until then cells have the values they had before.
   */
  pace: Pace | undefined;
  /** Values are still to be worked out, or what came of them to be told by `goOn`. */
  readonly pending: boolean;
  /** Works out what is left, as far as a pace allows; without one, all of it. */
  goOn(pace?: Pace): Followed;
  /** Begins an edit made of edits that are carried out one by one; refused while another is (rule U4). */
  beginLong(): LongEdit | Refused;
  /** Begins an edit that is tried, each try in the place of the one before; refused as for a long one (rule U5). */
  beginTrial(): TrialEdit | Refused;
  /** Why a cell may not be changed by hand now. */
  lockOf(at: At): Problem | undefined;
  /** What a cell with a list takes; undefined where it takes anything. */
  choices(at: At): readonly Choice[] | undefined;
  /** Only inputs may be changed by hand. */
  readonly locked: boolean;
  /** Takes the last step back; undefined where there is none, or a long edit is under way. */
  undo(): Applied | Refused | undefined;
  /** Carries the step that was undone last out again; undefined as for `undo`. */
  redo(): Applied | Refused | undefined;
  /** There is a step to take back. */
  readonly canUndo: boolean;
  /** There is a step to carry out again. */
  readonly canRedo: boolean;
  /** Its sheets in their order. */
  sheets(): readonly SheetView[];
  /** A sheet by its id. */
  sheet(id: string): SheetView | undefined;
  /** A cell with all there is to know of it; an empty one where nothing stands. */
  cell(at: At): CellView;
  /** What a cell comes to, in the workbook's own units. */
  value(at: At): CellValue;
  /** Its named cells. */
  names(): readonly NameView[];
  /** A cell by its name, in whatever capitals. */
  named(name: string): CellView | undefined;
  /** Its checks as they stand now, in their order. */
  checks(): readonly CheckState[];
  /**
   * What a check that fires says in other words: `say` puts its sentence and words of cells into them, `said` says its
   * numbers where they are told rougher than they are shown.
   */
  checkInWords(id: string, say: (words: string) => string, said?: NumberSaid): string | undefined;
  /** Its tables where they are now. */
  tables(): readonly TableView[];
  /** Why a cell has the value it has (rule X1). */
  explain(at: At): Explanation;
  /** Cells whose formulas use a cell: by its address, by its name or in a range. */
  usedBy(at: At): readonly Neighbour[];
  /** What uses a cell beside formulas, in words: checks, tables, the cutting plan. */
  alsoUsedBy(at: At): readonly string[];
  /** Why nothing but inputs may be changed by hand; undefined where everything may (rule O4). */
  lock(): Problem | undefined;
  /** Cells in error, and entries that cannot be read, in sheet order. */
  problems(): readonly {
    readonly at: At;
    readonly address: string;
    /** The error the cell shows, such as `#NUM!`. */
    readonly word: string;
    readonly says: string;
  }[];
  /** Formulas whose numbers do not go together: a length added to an area (rules M1, M2). */
  clashes(): readonly {
    readonly at: At;
    readonly address: string;
    readonly code: string;
    readonly says: string;
  }[];
  /** The same in the formulas of checks, by the check's name. */
  checkClashes(): readonly { readonly name: string; readonly says: string }[];
  /** A cell as it may be placed elsewhere: its formula as typed, its name left behind. */
  copyOf(at: At): CellDocument | undefined;
  /** The checks as makers write them: their formulas with addresses as they are now. */
  checkForms(): readonly CheckDocument[];
  /** The cells where a maker mends what a check says, what helps most first (rule K6). */
  placesToMend(check: string): readonly At[];
  /** A formula of a check in saved form, its addresses turned into ids (rule F1). */
  keptFormula(a1: string): string;
  /** `Base!B7`, `B7`, or a name, to a place. */
  find(text: string, sheet?: string): At | undefined;
  /** A place as it is written, without its sheet: `B7`. */
  addressOf(at: At): string;
  /** What a cell is called beside its name: what stands at the left of it, or where it stands in a table. */
  labelOf(at: At): string;
  /** What a cell is known by, wherever it stands; nothing beyond a sheet's edge. */
  idsAt(at: At): CellIds | undefined;
  /** Where the cell stands now that these ids are of; nothing where it is gone. */
  placeOf(ids: CellIds): At | undefined;
  /** A value as a cell would show it, in the workbook's own units: what it was, or by how much it moved. */
  asShown(at: At, value: CellValue): Shown;
  /** Remembers what cells come to from here on, to tell what moved. Nothing may be pending when it looks. */
  remember(): Remembered;
  /** Names of the cells that matter most, in their order. */
  readonly results: readonly string[];
  /** A value of its own, worked out in this workbook without changing it; what is left is done first. */
  evaluate(formula: string, sheet?: string): CellValue;
  /**
   * Since it was last worked out as a whole, formulas had to do without a part of the engine that has not
   * come yet (rule V3): it is to be worked out anew once that is there (`loadLazy`). Other workbooks that
   * had to do without count too.
   */
  readonly lacks: boolean;
  /** Works every formula out anew. Nothing is recorded: the workbook is the same. */
  recalculate(): void;
  /** The saved form as it is now. */
  document(): BookDocument;
  /**
   * Its text in pieces, each written when it is asked for. Comes to false where something was changed
   * before the last piece, or a long edit is under way: then they do not fit together.
   */
  savedPieces(): Generator<string, boolean>;
}

export type { Pace, Place, Scalar };
