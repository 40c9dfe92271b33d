import {
  type BookDocument,
  bookSchema,
  type CellDocument,
  cellSchema,
  LIMITS,
} from '../format/schema.ts';

type Cells = Record<string, CellDocument>;

/**
 * What the schema says of a workbook. Cells are by far the most of it, and nearly all of them hold a value, a formula and
 * little else: those are read here, key by key, and a row goes through the schema with its cells only where one of them is
 * otherwise. What comes of it, and what is said of it, is what the schema alone would say.
 */
export function readBook(raw: unknown): ReturnType<typeof bookSchema.safeParse> {
  const found: { readonly sheet: number; readonly row: number; readonly cells: Cells }[] = [];
  const checked = bookSchema.safeParse(withoutPlainCells(raw, found));
  if (checked.success) putBack(checked.data, found);
  return checked;
}

function putBack(
  { sheets }: BookDocument,
  found: readonly { readonly sheet: number; readonly row: number; readonly cells: Cells }[],
): void {
  for (const { sheet, row, cells } of found) {
    const line = sheets[sheet]?.rows[row];
    if (line !== undefined) line.cells = cells;
  }
}

function withoutPlainCells(
  raw: unknown,
  found: { sheet: number; row: number; cells: Cells }[],
): unknown {
  if (!isPlain(raw) || !Array.isArray(raw.sheets)) return raw;
  const sheets = raw.sheets.map((of: unknown, sheet) => {
    if (!isPlain(of) || !Array.isArray(of.rows) || of.rows.length > LIMITS.rows) return of;
    const rows = of.rows.map((line: unknown, row) => {
      const cells = isPlain(line) && isPlain(line.cells) ? plainCells(line.cells) : undefined;
      if (cells === undefined) return line;
      found.push({ sheet, row, cells });
      const { cells: _cells, ...rest } = line as Record<string, unknown>;
      return rest;
    });
    return { ...of, rows };
  });
  return { ...raw, sheets };
}

/** The cells of a row; undefined where there is none, or where the schema is to look at one of them. */
function plainCells(raw: Record<string, unknown>): Cells | undefined {
  let cells: Cells | undefined;
  for (const column in raw) {
    const cell = isId(column) ? plainCell(raw[column]) : undefined;
    if (cell === undefined) return undefined;
    cells ??= {};
    cells[column] = cell;
  }
  return cells;
}

const ID = /^[a-z][a-z0-9]{0,11}$/;
/** Rows of a sheet have the same columns, one after the other. */
const IDS = new Set<string>();
const MOST_IDS = 1_000;

function isId(text: string): boolean {
  if (IDS.has(text)) return true;
  if (!ID.test(text)) return false;
  if (IDS.size < MOST_IDS) IDS.add(text);
  return true;
}

const KEYS = Object.keys(cellSchema.shape) as (keyof CellDocument)[];

/** A cell, its keys in the order of the schema; undefined where the schema is to look at it. */
function plainCell(raw: unknown): CellDocument | undefined {
  if (!isPlain(raw)) return undefined;
  let left = 0;
  for (const _ in raw) left += 1;
  const cell: Record<string, unknown> = {};
  for (const key of KEYS) {
    if (left === 0) break;
    const value = raw[key];
    if (value === undefined) continue;
    const read = readKey(key, value);
    if (read === undefined) return undefined;
    cell[key] = read;
    left -= 1;
  }
  return left === 0 ? (cell as CellDocument) : undefined;
}

/** What stands under a key of a cell; undefined where the schema is to say why not. */
function readKey(key: keyof CellDocument, value: unknown): unknown {
  switch (key) {
    case 'value':
      if (typeof value === 'number') return Number.isFinite(value) ? value : undefined;
      return typeof value === 'boolean' || isText(value) ? value : undefined;
    case 'typed':
    case 'remark':
      return isText(value) ? value : undefined;
    case 'formula':
      return typeof value === 'string' && value.length <= LIMITS.kept && value.startsWith('=')
        ? value
        : undefined;
    default: {
      const read = cellSchema.shape[key].safeParse(value);
      return read.success ? read.data : undefined;
    }
  }
}

const isText = (value: unknown): boolean =>
  typeof value === 'string' && value.length <= LIMITS.text;

/** As JSON makes it: none with keys from elsewhere. */
const isPlain = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;
