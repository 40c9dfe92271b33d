import type { CellDocument, Node } from '@kerfbook/document';
import type { CellValue } from '@kerfbook/workbook';

/** A workbook as any office program's file holds it: what is written is decided, how is not. */
export interface FlatBook {
  readonly title: string;
  /** The workbook's own sheets in their order, then those that the file needs beside them. */
  readonly sheets: readonly FlatSheet[];
  /** Names of cells, and of the tables with known columns. */
  readonly names: readonly FlatName[];
  /** What the file cannot hold as the workbook does, in the order of its sheets. */
  readonly told: readonly ToldOut[];
}

/** Something that went out otherwise than it is in the workbook. */
export interface ToldOut {
  /** What it is about: frozen formulas, sheets that are called otherwise, units … */
  readonly kind: 'frozen' | 'sheet-name' | 'name' | 'unit' | 'cut' | 'list' | 'error';
  /** The cell as it is written in the workbook, `Base!B7`; a sheet's or cell's name. */
  readonly of: string;
  /** One sentence: what became of it, and why. */
  readonly says: string;
}

/** A name and its cell, or the range that it stands for. */
export interface FlatName {
  readonly name: string;
  /** Index of its sheet. */
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  /** The other corner of a range. */
  readonly to?: { readonly row: number; readonly column: number };
}

/** A sheet as it goes out. */
export interface FlatSheet {
  /** As the file calls it. */
  readonly name: string;
  /** Id of the workbook's sheet; none of one that was added. */
  readonly id?: string;
  readonly isHidden: boolean;
  /** Only inputs may be changed there, without a password. */
  readonly isLocked: boolean;
  readonly columns: readonly { readonly width?: number; readonly isHidden: boolean }[];
  readonly rows: readonly { readonly isHidden: boolean; readonly group: number }[];
  readonly frozen: { readonly rows: number; readonly columns: number };
  /** By rows, then columns. */
  readonly cells: readonly FlatCell[];
  /** Cells whose look follows a check. */
  readonly marks: readonly FlatMark[];
}

/** A cell as it goes out. */
export interface FlatCell {
  /** Counted from 0. */
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
  /** What is written beside its value; none where its last value stands for it. */
  readonly formula?: FlatFormula;
  /** Code of its number's format, as ECMA-376 part 1, 18.8.31 has it; none: general. */
  readonly format?: string;
  readonly look: Look;
  /** What its remark says, ours and its maker's. */
  readonly remark?: string;
  readonly allow?: FlatAllow;
}

/** A formula that goes along. */
export interface FlatFormula {
  readonly root: Node;
  /** Ranges are worked out cell by cell in it. */
  readonly isArray: boolean;
  /** It is not as its maker wrote it: functions of ours are written out. */
  readonly isWrittenOut: boolean;
  /** How long it holds, as a sentence for its remark. */
  readonly holds?: string;
}

/** What decides a cell's style. */
export interface Look {
  readonly role?: CellDocument['role'];
  readonly style?: CellDocument['style'];
  /** Something was typed over its formula. */
  readonly isOverridden?: true;
}

/** Which entries a cell takes. */
export interface FlatAllow {
  readonly min?: number;
  readonly max?: number;
  readonly whole?: boolean;
  readonly list?: readonly string[];
}

/** Cells that bear the sign of a check, and where its state is found. */
export interface FlatMark {
  /** Corners, counted from 0. */
  readonly from: { readonly row: number; readonly column: number };
  readonly to: { readonly row: number; readonly column: number };
  readonly severity: 'stop' | 'care';
  /** The cell that is true while the check holds: its sheet by index. */
  readonly holds: { readonly sheet: number; readonly row: number; readonly column: number };
}
