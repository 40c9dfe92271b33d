import type { Quantity } from '@kerfbook/wood';
import type { Change } from '../changes/types.ts';
import type {
  Allow,
  BookDocument,
  CellDocument,
  CellStyle,
  CheckDocument,
  ColumnDocument,
  RowDocument,
  SheetDocument,
  Show,
  TableDocument,
} from '../format/schema.ts';
import type { At, Place } from '../state/places.ts';

/** What may be said of a cell without touching what it holds; `null` takes a property away. */
export interface CellTraits {
  /** What its number is. */
  readonly quantity?: Quantity | null;
  /** How its number is written. */
  readonly show?: Show | null;
  /** Input, calculated, heading or note. */
  readonly role?: NonNullable<CellDocument['role']> | null;
  /** A note beside it, in the maker's words. */
  readonly remark?: string | null;
  /** Which entries it takes. */
  readonly allow?: Allow | null;
  /** How it looks, in the place of how it looked. */
  readonly style?: CellStyle | null;
}

/** What is said of a workbook as a whole; `null` takes it away where it may be left out. */
export type HeadKey =
  | 'title'
  | 'about'
  | 'customer'
  | 'job'
  | 'due'
  | 'agreed'
  | 'revision'
  | 'terms'
  | 'letterhead'
  | 'guide'
  | 'photos'
  | 'currency'
  | 'licence'
  | 'author'
  | 'locked'
  | 'promises'
  | 'results'
  | 'tags'
  | 'lineage';

/**
 * Every change to a workbook is one of these values, applied whole or refused whole by
 * `Workbook.apply`, which returns the edit that undoes it.
 */
export type Edit =
  /** Text as a maker types it into cells: read by the cell's quantity, formulas start with `=`. */
  | {
      readonly do: 'enter';
      readonly sheet: string;
      readonly cells: readonly (Place & { readonly text: string })[];
    }
  /** Empties cells; formats, names and remarks stay. */
  | { readonly do: 'clear'; readonly sheet: string; readonly cells: readonly Place[] }
  /** Whole cells, in saved form. `null` removes one. */
  | {
      readonly do: 'setCells';
      readonly sheet: string;
      readonly cells: readonly (Place & { readonly cell: CellDocument | null })[];
    }
  /** Whole cells, formulas as they are typed; makes the sheet larger where they reach beyond it. */
  | {
      readonly do: 'place';
      readonly sheet: string;
      readonly cells: readonly (Place & { readonly cell: CellDocument | null })[];
    }
  /** Takes cells elsewhere; formulas that use them follow. */
  | {
      readonly do: 'moveCells';
      readonly sheet: string;
      readonly from: Place & { readonly rows: number; readonly columns: number };
      readonly to: At;
    }
  /** Takes the override off calculated cells: their formulas' results show again. */
  | { readonly do: 'restore'; readonly sheet: string; readonly cells: readonly Place[] }
  | {
      readonly do: 'describeCells';
      readonly sheet: string;
      readonly cells: readonly (Place & { readonly traits: CellTraits })[];
    }
  /** Names a cell, or takes its name away with `null` (refused while a formula uses it). */
  | { readonly do: 'nameCell'; readonly at: At; readonly name: string | null }
  /** Changes a name; every formula that uses it follows. */
  | { readonly do: 'renameName'; readonly from: string; readonly to: string }
  | {
      readonly do: 'insertRows';
      readonly sheet: string;
      readonly at: number;
      readonly rows: readonly RowDocument[];
    }
  | {
      readonly do: 'deleteRows';
      readonly sheet: string;
      readonly at: number;
      readonly count: number;
    }
  | {
      readonly do: 'insertColumns';
      readonly sheet: string;
      readonly at: number;
      readonly columns: readonly ColumnDocument[];
      /** Cells that come with the columns: row id, then column id. */
      readonly cells?: Readonly<Record<string, Readonly<Record<string, CellDocument>>>>;
    }
  | {
      readonly do: 'deleteColumns';
      readonly sheet: string;
      readonly at: number;
      readonly count: number;
    }
  | {
      readonly do: 'setColumn';
      readonly sheet: string;
      readonly column: number;
      readonly width: number | null;
    }
  /** So many columns stay in view at the left, so many rows at the top; none with 0. */
  | {
      readonly do: 'freeze';
      readonly sheet: string;
      readonly columns?: number;
      readonly rows?: number;
    }
  /** Takes columns out of sight or brings them back. */
  | {
      readonly do: 'hideColumns';
      readonly sheet: string;
      readonly columns: readonly number[];
      readonly hidden: boolean;
    }
  | {
      readonly do: 'hideRows';
      readonly sheet: string;
      readonly rows: readonly number[];
      readonly hidden: boolean;
    }
  /** How many groups each of these rows is in, one inside the other; none with 0. */
  | {
      readonly do: 'groupRows';
      readonly sheet: string;
      readonly rows: readonly { readonly row: number; readonly group: number }[];
    }
  | { readonly do: 'addSheet'; readonly at: number; readonly sheet: SheetDocument }
  | { readonly do: 'removeSheet'; readonly sheet: string }
  | { readonly do: 'renameSheet'; readonly sheet: string; readonly name: string }
  | { readonly do: 'moveSheet'; readonly sheet: string; readonly to: number }
  /** Takes a sheet out of the list or brings it back; one is always in it. */
  | { readonly do: 'hideSheet'; readonly sheet: string; readonly hidden: boolean }
  | { readonly do: 'setChecks'; readonly checks: readonly CheckDocument[] }
  | { readonly do: 'setTables'; readonly tables: readonly TableDocument[] }
  | {
      readonly do: 'setBook';
      readonly set: {
        readonly [K in HeadKey]?: BookDocument[K] | null;
      };
    }
  /** The workbook counts in other units: what it holds is turned into them (rule N7). */
  | { readonly do: 'changeUnits'; readonly to: BookDocument['units'] }
  /** The whole workbook becomes what another state of it was; an edit of its own, never one of several. */
  | { readonly do: 'become'; readonly book: BookDocument }
  /** What another edit came to, as it is taken back, done again and kept in a log: facts by ids. */
  | { readonly do: 'change'; readonly changes: readonly Change[] }
  /** Several edits as one: all of them or none, one step of undo. */
  | { readonly do: 'batch'; readonly edits: readonly Edit[] };
