import { CHECK_HEADS } from '../flat/checks-sheet.ts';
import type { SheetIn } from './coming-in.ts';

/** What stands behind a workbook's own sheets in a file of ours, from the last on. */
const ADDED = [/^Lists(?: \d+)?$/, /^About this file(?: \d+)?$/, /^Checks(?: \d+)?$/] as const;

/**
 * The sheets that were put behind a workbook's own on its way out. A sheet of its maker's may be called the same: only
 * the last of each is one, in this order, and that of checks by its heads.
 */
export function addedSheets(sheets: readonly SheetIn[]): readonly SheetIn[] {
  const found: SheetIn[] = [];
  for (const [at, pattern] of ADDED.entries()) {
    const last = sheets[sheets.length - 1 - found.length];
    if (last === undefined || !pattern.test(last.name)) continue;
    if (at === ADDED.length - 1 && !hasCheckHeads(last)) continue;
    // A list is there only beside what the file says of itself.
    if (at === 0 && !ADDED[1].test(sheets[sheets.length - 2]?.name ?? '')) continue;
    found.push(last);
  }
  return found;
}

/** Whether a sheet has the heads of the one with checks. */
export const hasCheckHeads = ({ cells }: SheetIn): boolean =>
  CHECK_HEADS.every((head, column) =>
    cells.some(
      (cell) =>
        cell.row === 0 &&
        cell.column === column &&
        cell.value?.kind === 'text' &&
        cell.value.text === head,
    ),
  );
