import type {
  CellDocument,
  CheckDocument,
  ColumnDocument,
  RowDocument,
  SheetDocument,
  TableDocument,
} from '../format/schema.ts';
import type { Head } from '../state/state.ts';

/** A cell by the ids of its row and column; `null` takes it out. */
export interface CellChange {
  /** Id of its row. */
  readonly row: string;
  /** Id of its column. */
  readonly column: string;
  /** The whole cell as it is from now on. */
  readonly cell: CellDocument | null;
}

/** What the lists of a workbook are made of. Every member is known by its id, unique in its list. */
interface Members {
  sheets: SheetDocument;
  rows: RowDocument;
  columns: ColumnDocument;
  checks: CheckDocument;
  tables: TableDocument;
}

export type ListName = keyof Members;

/** What is in a member and changed by changes of its own. */
interface Inside {
  sheets: 'rows' | 'columns';
  rows: 'cells';
  columns: never;
  checks: never;
  tables: never;
}

/** Rows and columns are those of a sheet, the other lists the workbook's own. */
type In<L extends ListName> = L extends 'rows' | 'columns'
  ? { readonly list: L; readonly sheet: string }
  : { readonly list: L };

export type ListOf = { readonly [L in ListName]: In<L> }[ListName];

/** A change of thousands of rows is one: each change keeps the workbook before it and after it. */
type Which<L extends ListName> = L extends 'rows' | 'columns'
  ? { readonly ids: readonly string[] }
  : { readonly id: string };

/** Properties beside the id and what has changes of its own; `null` takes one away. */
type About<T, L extends ListName> = {
  readonly [K in Exclude<keyof T, 'id' | Inside[L]>]?: T[K] | null;
};

/** What is said of a row and is no property of it: that it says that it has cells, where none are there. */
type Beside<L extends ListName> = L extends 'rows' ? { readonly bare?: true | null } : object;

/**
 * A fact about a workbook, by ids alone: it means the same whatever stands above or beside it, so that
 * changes of several makers can be put together. `applyChanges` carries it out.
 */
export type Change =
  /** Whole cells of a sheet. */
  | { readonly change: 'cells'; readonly sheet: string; readonly cells: readonly CellChange[] }
  /** New members right after one that is there, in their order; at the front after `null`. */
  | {
      readonly [L in ListName]: In<L> & {
        readonly change: 'insert';
        readonly after: string | null;
        readonly items: readonly Members[L][];
      };
    }[ListName]
  /** Members with all that is in them. */
  | (ListOf & { readonly change: 'remove'; readonly ids: readonly string[] })
  /** Members, in this order, to the place right after one that is not among them. */
  | (ListOf & {
      readonly change: 'order';
      readonly ids: readonly string[];
      readonly after: string | null;
    })
  /** What is said of one member; of rows or columns, the same of each that is named. */
  | {
      readonly [L in ListName]: In<L> &
        Which<L> & {
          readonly change: 'set';
          readonly set: About<Members[L], L> & Beside<L>;
        };
    }[ListName]
  /** What is said of the workbook as a whole. */
  | {
      readonly change: 'head';
      readonly set: { readonly [K in keyof Head]?: Head[K] | null };
    };
