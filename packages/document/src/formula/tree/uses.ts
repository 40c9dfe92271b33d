import { nameKey } from '../names.ts';
import { readWritten, type SheetIndex } from '../references.ts';
import type { Formula } from './read.ts';

/** Names of functions that a formula calls, in capitals. */
export const functionsIn = ({ tokens }: Formula): readonly string[] =>
  tokens.flatMap(({ type, value }) => (type === 'func' ? value.toUpperCase() : []));

/** Whether a formula uses a name given by its key. */
export const usesName = ({ tokens }: Formula, wanted: string): boolean =>
  tokens.some(({ type, value }) => type === 'range_named' && nameKey(value) === wanted);

/** Whether a formula mentions one of these ids of sheets, rows or columns. */
export function mentions({ tokens }: Formula, ids: ReadonlySet<string>): boolean {
  const has = (id: string | undefined): boolean => id !== undefined && ids.has(id);
  return tokens.some(({ reference }) => {
    if (reference === undefined) return false;
    const { sheet, from, to } = reference;
    return has(sheet) || has(from.row) || has(from.column) || has(to?.row) || has(to?.column);
  });
}

/**
 * How far the references of a typed formula reach, by sheet id, in rows and columns. Whole rows
 * and columns reach only as far as they name.
 */
export function extentOf(
  { tokens }: Formula,
  sheet: string,
  index: SheetIndex,
): Map<string, { rows: number; columns: number }> {
  const extent = new Map<string, { rows: number; columns: number }>();
  for (const { type, value } of tokens) {
    const written = type === 'address' ? readWritten(value) : undefined;
    if (written === undefined) continue;
    const id = written.sheet === undefined ? sheet : index.sheetId(written.sheet);
    if (id === undefined) continue;
    const known = extent.get(id) ?? { rows: 0, columns: 0 };
    const corners = written.to === undefined ? [written.from] : [written.from, written.to];
    extent.set(id, {
      rows: Math.max(known.rows, ...corners.map(({ row }) => (row ?? -1) + 1)),
      columns: Math.max(known.columns, ...corners.map(({ column }) => (column ?? -1) + 1)),
    });
  }
  return extent;
}
