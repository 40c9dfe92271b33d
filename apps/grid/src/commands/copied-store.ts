import { LIMITS } from '@kerfbook/workbook';
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { columnsOf, rowsOf } from '../session/area.ts';
import type { Block } from '../session/types.ts';
import { MOST_CELLS } from './clipboard.ts';

/**
 * The cells copied last, for other tabs of this browser. A clipboard holds one thing, so this does; it
 * outlives the tab the cells were copied in, and a day at the most.
 */
interface Tables extends DBSchema {
  copied: { key: typeof KEY; value: Kept };
}

interface Kept {
  readonly id: string;
  readonly text: string;
  /** When they were copied, in ms since 1970. */
  readonly when: number;
}

const NAME = 'kerfbook-copied';
const KEY = 'last';
/** Letters that are kept, at the most. */
const MOST_LETTERS = 20_000_000;
const A_DAY = 24 * 60 * 60 * 1000;

async function withStore<T>(act: (database: IDBPDatabase<Tables>) => Promise<T>): Promise<T> {
  const database = await openDB<Tables>(NAME, 1, {
    upgrade: (fresh) => void fresh.createObjectStore('copied'),
  });
  try {
    return await act(database);
  } finally {
    database.close();
  }
}

/** Keeps cells in the place of those before, which are no longer on the clipboard. */
export async function keepCells(id: string, block: Block): Promise<void> {
  const text = JSON.stringify(block);
  await withStore(async (database) => {
    if (text.length > MOST_LETTERS) await database.delete('copied', KEY);
    else await database.put('copied', { id, text, when: Date.now() }, KEY);
  });
}

/** Whether a text could be an id of ours at all. */
export const isId = (text: string): boolean => /^[0-9a-f]{32}$/.test(text);

/** Longest wait for the store; what is not there by then comes as text, in ms. */
const PATIENCE = 1500;

/** The cells of an id, where they were copied last in another tab of this browser. */
export async function copiedElsewhere(id: string): Promise<Block | undefined> {
  const late = new Promise<undefined>((resolve) => setTimeout(() => resolve(undefined), PATIENCE));
  const found = withStore((database) => database.get('copied', KEY));
  const kept = await Promise.race([found, late]).catch(() => undefined);
  return kept?.id === id ? blockOf(kept.text) : undefined;
}

/** Leaves nothing lying about that was copied long ago, or at a time yet to come. */
export async function forgetOld(): Promise<void> {
  await withStore(async (database) => {
    const kept = await database.get('copied', KEY);
    if (kept !== undefined && !(Math.abs(Date.now() - kept.when) < A_DAY)) {
      await database.delete('copied', KEY);
    }
  }).catch(() => undefined);
}

/**
 * Cells as they were kept. Another version of the app, or another program at this address, may have
 * written them: what is not as it should be is nothing.
 */
export function blockOf(text: string): Block | undefined {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    return undefined;
  }
  return isBlock(read) ? read : undefined;
}

function isBlock(read: unknown): read is Block {
  if (!isRecord(read) || !isRecord(read.area)) return false;
  const { area, cells, values } = read as { area: Block['area'] } & Record<string, unknown>;
  const { top, left, bottom, right } = area;
  if (![top, left, bottom, right].every(Number.isInteger)) return false;
  if (top < 0 || left < 0 || bottom < top || right < left) return false;
  if (bottom >= LIMITS.rows || right >= LIMITS.columns) return false;
  const [rows, columns] = [rowsOf(area), columnsOf(area)];
  return (
    rows * columns <= MOST_CELLS &&
    read.kerfbook === 'cells' &&
    (read.units === 'us' || read.units === 'metric') &&
    typeof read.sheet === 'string' &&
    isTable(cells, rows, columns, (cell) => cell === null || isCell(cell)) &&
    isTable(values, rows, columns, (value) => value === null || isScalar(value))
  );
}

const isRecord = (read: unknown): read is Record<string, unknown> =>
  typeof read === 'object' && read !== null && !Array.isArray(read);

/** What else is in a cell, the workbook checks when it takes it in. */
const isCell = (read: unknown): boolean =>
  isRecord(read) && (read.formula === undefined || typeof read.formula === 'string');

const isScalar = (read: unknown): boolean =>
  typeof read === 'string' || typeof read === 'number' || typeof read === 'boolean';

function isTable(
  read: unknown,
  rows: number,
  columns: number,
  fits: (cell: unknown) => boolean,
): boolean {
  return (
    Array.isArray(read) &&
    read.length === rows &&
    read.every((line) => Array.isArray(line) && line.length === columns && line.every(fits))
  );
}
