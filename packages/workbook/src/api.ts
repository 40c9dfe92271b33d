import type {
  Allow,
  At,
  BookDocument,
  CellDocument,
  CellStyle,
  CheckDocument,
  Edit,
  Place,
  RowGroup,
  Scalar,
  Show,
} from '@kerfbook/document';
import type { OwnKind, Quantity, UnitSystem } from '@kerfbook/wood';
import type { Mark } from './book/marks.ts';
import type { Pace } from './engine/order.ts';

/** What a cell comes to. */
export type CellValue =
  | { readonly kind: 'empty' }
  | { readonly kind: 'number'; readonly number: number }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'logical'; readonly logical: boolean }
  | { readonly kind: 'error'; readonly error: ErrorValue };

export type ErrorMark =
  | '#VALUE!'
  | '#NUM!'
  | '#N/A'
  | '#NAME?'
  | '#REF!'
  | '#DIV/0!'
  | '#CYCLE!'
  | '#SPILL!'
  | '#ERROR!'
  | '#LIC!';

export interface ErrorValue {
  readonly mark: ErrorMark;
  /** One plain sentence: what was wrong, what was expected, what to do. */
  readonly says: string;
  /** The cell where it began, where that is another cell. */
  readonly from?: At;
}

/** How a value is shown. */
export interface Shown {
  /** The whole text, for a clipboard or a screen reader: `33 3/16`. */
  readonly text: string;
  /** A number with a fraction, in its parts, so that it can be drawn as a true fraction. */
  readonly fraction?: { readonly whole: string; readonly over: string; readonly under: string };
  /** The exact value, where the shown one is rounded. */
  readonly exact?: string;
  readonly align: 'start' | 'end' | 'centre';
}

/** Something about a cell that its maker should look at. */
export interface Problem {
  /** Stable code of the catalogue. */
  readonly code: string;
  readonly says: string;
}

/** Everything a grid, a panel or a printout needs to know of a cell. */
export interface CellView {
  readonly at: At;
  readonly address: string;
  readonly value: CellValue;
  readonly shown: Shown;
  /** What the editor opens with: what was typed, or the formula with A1 addresses. */
  readonly entry: string;
  /** The formula, also while an override hides its result. */
  readonly formula?: string | undefined;
  readonly override?: { readonly typed: string };
  readonly quantity?: Quantity;
  readonly unit: string;
  readonly role?: NonNullable<CellDocument['role']>;
  readonly name?: string;
  readonly remark?: string;
  readonly allow?: Allow;
  readonly show?: Show;
  readonly style?: CellStyle;
  /** What a failing check says of it. */
  readonly mark?: Mark | undefined;
  /** Entries that cannot be read or are not allowed; refused formulas. */
  readonly problem?: Problem;
  /** What in its formula does not go together; the cell computes all the same (rule M1). */
  readonly clash?: Problem | undefined;
}

export interface CheckState {
  readonly id: string;
  readonly name: string;
  readonly sheet?: string;
  /** `unknown`: the check's own formula is in error. */
  readonly state: 'pass' | 'care' | 'stop' | 'unknown';
  readonly says: string;
}

/** What an edit did. */
export interface Applied {
  readonly ok: true;
  /** The edit as it was carried out, ids filled in. */
  readonly edit: Edit;
  readonly inverse: Edit;
  /** Exactly the cells whose value, text or marks differ from before, each once. */
  readonly changed: readonly At[];
  /** Checks whose state or sentence differs from before. */
  readonly checks: readonly string[];
  /** Rows, columns, sheets or names changed: a grid draws anew. */
  readonly structure: boolean;
}

/** What came of going on with values that an edit left to be worked out. */
export interface Followed {
  readonly changed: readonly At[];
  readonly checks: readonly string[];
  /** Marks of checks changed at more cells than are named: a grid draws anew. */
  readonly structure: boolean;
}

/**
 * An edit carried out part by part, so that its maker sees how far it is and can stop it. It is one
 * step of undo; nothing else can be changed until it is kept or dropped.
 */
export interface LongEdit {
  readonly ok: true;
  apply(part: Edit): Applied | Refused;
  /** Ends it; what all parts did, as one. */
  keep(): Applied;
  /** Ends it as if it had never begun. */
  drop(): void;
}

export interface Refused {
  readonly ok: false;
  readonly code: string;
  readonly says: string;
  /** What was thrown on the way, for who looks for its cause; never shown. */
  readonly thrown?: unknown;
}

export interface NameView {
  readonly name: string;
  readonly at: At;
}

export interface SheetView {
  readonly id: string;
  readonly name: string;
  readonly rows: number;
  readonly columns: number;
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
}

/** A table of the workbook where it is now. */
export interface TableView {
  readonly id: string;
  readonly kind: 'parts' | 'stock' | OwnKind;
  readonly sheet: string;
  readonly header: number;
  readonly last: number;
}

/** Why a cell has the value it has. */
export interface Explanation {
  readonly at: At;
  readonly address: string;
  readonly name?: string;
  readonly formula?: string;
  /** The formula with each reference replaced by what it shows. */
  readonly withNumbers?: string;
  readonly uses: readonly Neighbour[];
  readonly usedBy: readonly Neighbour[];
  /** What else uses it: `the check "Knee room"`, `the parts table`, `the cutting plan`. */
  readonly alsoUsedBy: readonly string[];
  /** The inputs it finally rests on. */
  readonly rests: readonly Neighbour[];
  /** Woodworking functions in the formula with what they answer and their source. */
  readonly functions: readonly {
    readonly name: string;
    readonly answers: string;
    readonly source: string;
  }[];
  /** Sheets with tables of the maker's own that these functions look in first. */
  readonly looksIn: readonly string[];
  readonly error?: ErrorValue;
}

export interface Neighbour {
  readonly at: At;
  readonly address: string;
  readonly label: string;
  readonly shown: string;
}

/**
 * An open workbook. The one class apps talk to; nothing of HyperFormula shows through it.
 * `Workbook.open(document)` builds one from a checked document.
 */
export interface OpenWorkbook {
  readonly units: UnitSystem;
  readonly currency: string;
  readonly title: string;
  /**
   * Carries an edit out whole, or refuses it whole. `again`: one that was carried out before, from a
   * log; it is not held against what may be changed by hand.
   */
  apply(edit: Edit, again?: 'again'): Applied | Refused;
  /**
   * Where one is given, `apply`, `undo`, `redo` and parts of a long edit stop working values out once
   * it says no; `goOn` takes up the rest (rule C2). Until then cells have the values they had before.
   */
  pace: Pace | undefined;
  /** Values are still to be worked out, or what came of them to be told by `goOn`. */
  readonly pending: boolean;
  /** Works out what is left, as far as a pace allows; without one, all of it. */
  goOn(pace?: Pace): Followed;
  /** An edit carried out part by part; refused while another one is (rule U4). */
  beginLong(): LongEdit | Refused;
  /** Why a cell may not be changed by hand now. */
  kept(at: At): Problem | undefined;
  /** Only inputs may be changed by hand. */
  readonly inputsOnly: boolean;
  undo(): Applied | Refused | undefined;
  redo(): Applied | Refused | undefined;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  sheets(): readonly SheetView[];
  sheet(id: string): SheetView | undefined;
  cell(at: At): CellView;
  value(at: At): CellValue;
  names(): readonly NameView[];
  named(name: string): CellView | undefined;
  checks(): readonly CheckState[];
  tables(): readonly TableView[];
  explain(at: At): Explanation;
  /** Cells whose formulas use a cell: by its address, by its name or in a range. */
  usedBy(at: At): readonly Neighbour[];
  /** What uses a cell beside formulas, in words: checks, tables, the cutting plan. */
  alsoUsedBy(at: At): readonly string[];
  /** Why nothing but inputs may be changed by hand; undefined where everything may (rule O4). */
  locked(): Problem | undefined;
  /** Cells in error, and entries that cannot be read, in sheet order. */
  problems(): readonly {
    readonly at: At;
    readonly address: string;
    readonly mark: string;
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
  /** A formula of a check in saved form, its addresses turned into ids (rule F1). */
  keptFormula(a1: string): string;
  /** `Base!B7`, `B7`, or a name, to a place. */
  find(text: string, sheet?: string): At | undefined;
  addressOf(at: At): string;
  /** A value of its own, worked out in this workbook without changing it; what is left is done first. */
  evaluate(formula: string, sheet?: string): CellValue;
  /**
   * Works every formula out anew, after a part of the engine came that some were worked out without
   * (`bringParts`). Nothing is recorded: the workbook is the same.
   */
  workOutAnew(): void;
  /** The saved form as it is now. */
  document(): BookDocument;
  /**
   * Its text in pieces, each written when it is asked for. Comes to false where something was changed
   * before the last piece, or a long edit is under way: then they do not fit together.
   */
  savedPieces(): Generator<string, boolean>;
}

export type { Pace, Place, Scalar };
