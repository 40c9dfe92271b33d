import type { At } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';
import type { Remark } from './remarks.ts';

/** What every renderer and editor of the grid is handed. */
export interface GridContext {
  readonly session: Session;
  /** The sheet that the grid shows; the session may already be on another. */
  readonly sheet: string;
  /** Moves on after an entry was taken over. */
  readonly leave: (by: Leave) => void;
  /** How a note stands that is too long for one line. */
  readonly remark: (at: At) => Remark | undefined;
}

export type Leave = 'down' | 'up' | 'right' | 'left' | 'next' | 'previous' | 'stay';

export const columnId = (column: number): string => `c${column}`;

/** The place a grid's row and column stand for; `undefined` for the row numbers. */
export function placeOf(
  sheet: string,
  row: number | null | undefined,
  colId: string | undefined,
): At | undefined {
  const column = /^c(\d+)$/.exec(colId ?? '')?.[1];
  if (column === undefined || row === null || row === undefined) return undefined;
  return { sheet, row, column: Number(column) };
}
