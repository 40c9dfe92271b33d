import type { Allow, CellDocument } from '@kerfbook/document';
import type { FormatRead } from './format-code.ts';

/** A file that was read, before anything of it is a workbook: what it says, whatever its format is. */
export interface ComingIn {
  readonly sheets: readonly SheetIn[];
  /** Names and what they stand for, as the file writes it. */
  readonly names: readonly NameIn[];
  /** It was written by Kerfbook: remarks with formulas in them are formulas again. */
  readonly isOurs: boolean;
  /** What the file has and a workbook has not. */
  readonly told: readonly ToldIn[];
}

/** Something that did not come in, or came in otherwise. */
export interface ToldIn {
  /** What kind of thing it is. */
  readonly kind:
    | 'formula'
    | 'value'
    | 'name'
    | 'sheet'
    | 'merged'
    | 'beyond'
    | 'left-out'
    | 'differs'
    | 'cut'
    | 'rule'
    | 'check';
  /** The cell as the file has it, `Parts!B7`; the name or sheet it is about. */
  readonly of: string;
  /** One sentence: what became of it, and why. */
  readonly says: string;
}

/** A name of a file. */
export interface NameIn {
  readonly name: string;
  readonly means: string;
  /** The sheet it belongs to, counted from 0; undefined: the whole file. */
  readonly sheet: number | undefined;
}

/** A sheet of a file. */
export interface SheetIn {
  readonly name: string;
  readonly isHidden: boolean;
  readonly cells: readonly CellIn[];
  /** By columns from 0; in px. */
  readonly columns: readonly { readonly width?: number; readonly isHidden: boolean }[];
  readonly rows: readonly {
    readonly row: number;
    readonly isHidden: boolean;
    readonly group: number;
  }[];
  readonly frozen: { readonly rows: number; readonly columns: number };
}

/** What a cell of a file holds. */
export type ValueIn =
  | { readonly kind: 'number'; readonly number: number }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'logical'; readonly logical: boolean }
  | { readonly kind: 'error'; readonly word: string };

/** A cell of a file. */
export interface CellIn {
  /** Counted from 0. */
  readonly row: number;
  readonly column: number;
  readonly value?: ValueIn;
  /** As the file writes it, without its `=`. */
  readonly formula?: string;
  /** Rows and columns that an array formula fills. */
  readonly fills?: { readonly rows: number; readonly columns: number };
  readonly format?: FormatRead;
  readonly style?: CellDocument['style'];
  readonly role?: CellDocument['role'];
  readonly remark?: string;
  readonly allow?: Allow;
  /** What was typed, where the value written out would not say it: `3 1/2`. */
  readonly typed?: string;
}

/** Cells with something in them that are read at most, of a whole file. */
export const MOST_CELLS = 250_000;

/** Formulas that are read at most, of a whole file: a workbook of so many takes seconds to open. */
export const MOST_FORMULAS = 50_000;
