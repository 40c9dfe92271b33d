import type { At, CellDocument, Place, Scalar } from '@kerfbook/workbook';
import type { Area } from './area.ts';

/** An entry being written; the cell and the formula line show and change the same one. */
export interface Editing {
  readonly at: At;
  readonly text: string;
  /** `fresh`: begun by typing, so that arrows leave the cell; `edit`: arrows move in the text. */
  readonly mode: 'fresh' | 'edit';
  readonly from: 'cell' | 'line';
  /** Where the caret stands in the text. */
  readonly caret: number;
  /** The reference written by pointing at cells: where it stands in the text, and the cells. */
  readonly pointed?: Pointed;
  /** Which completion is chosen, counted from 0. */
  readonly choice?: number;
  /** The list of completions was put away. */
  readonly hushed?: boolean;
}

/** A number being pulled, in the unit that its cell shows. */
export interface Pulling {
  readonly at: At;
  /** With the pointer or a finger, or with keys. */
  readonly by: 'hand' | 'keys';
  readonly value: number;
  /** By how much it moves now. */
  readonly step: number;
  /** How far it is from the least to the most, 0 to 1, where both are known. */
  readonly share?: number;
  /** It was pulled to an end of its range, where it stays. */
  readonly end?: 'low' | 'high';
}

/** A question with what can be answered; putting it away does nothing. */
export interface Offer {
  readonly says: string;
  readonly answers: readonly { readonly says: string; readonly does: () => void }[];
  readonly putAway: string;
  /** It is asked at the list of the cell that is written in: nowhere else as well. */
  readonly atList?: true;
}

export interface Busy {
  readonly says: string;
  /** How much of it is there, 0 to 1. */
  readonly done: number;
}

export interface Pointed {
  readonly start: number;
  readonly end: number;
  readonly sheet: string;
  readonly from: Place;
  readonly lead: Place;
}

/** Cells on their way within the app: whole, with what they came to. */
export interface Block {
  readonly kerfbook: 'cells';
  readonly units: 'us' | 'metric';
  readonly sheet: string;
  readonly area: Area;
  readonly cut: boolean;
  readonly cells: readonly (readonly (CellDocument | null)[])[];
  readonly values: readonly (readonly (Scalar | null)[])[];
}

/** What a menu item asks for that needs a dialog. */
export type Question =
  | 'parts'
  | 'stock'
  | 'name'
  | 'format'
  | 'remark'
  | 'mark'
  | 'width'
  | 'removeRows'
  | 'removeColumns';

/** Where a menu stands open, in the window, and what of the selection it is about: its cells where left out. */
export interface MenuState {
  readonly x: number;
  readonly y: number;
  readonly of?: 'cells' | 'rows' | 'columns';
}

/** Another workbook that this one is compared with, and what stands otherwise there. */
export interface Comparing {
  /** What it is called. */
  readonly title: string;
  /** What cells hold there, by the ids of their sheet, row and column, in the order of the sheets. */
  readonly cells: ReadonlyMap<string, string>;
}

/** What is wrong with a part's place in words or its shape: none comes of it, or something is to be looked at. */
export interface PartTrouble {
  readonly at: At;
  readonly says: string;
  readonly state: 'stop' | 'care';
}
