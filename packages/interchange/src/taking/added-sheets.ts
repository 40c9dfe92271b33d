import { CHECK_HEADS } from '../flat/checks-sheet.ts';
import type { SheetIn } from './coming-in.ts';

const ABOUT = /^About this file(?: \d+)?$/;
const CHECKS = /^Checks(?: \d+)?$/;
/** Hidden lists, and the drawing: nothing of a maker's stands behind what the file says of itself. */
const BEHIND = /^(?:Lists|Drawing)(?: \d+)?$/;

/**
 * The sheets that were put behind a workbook's own on its way out: checks, what the file says of itself, and one with
 * lists or the drawing. A sheet of its maker's may be called the same: only the last ones are meant, in this order, and
 * that of checks by its heads.
 */
export function addedSheets(sheets: readonly SheetIn[]): readonly SheetIn[] {
  const about = sheets.findLastIndex(({ name }) => ABOUT.test(name));
  const behind = about < 0 ? [] : sheets.slice(about + 1);
  if (about < 0 || !behind.every(({ name }) => BEHIND.test(name))) return [];
  const before = sheets[about - 1];
  const hasChecks = before !== undefined && CHECKS.test(before.name) && hasCheckHeads(before);
  return sheets.slice(hasChecks ? about - 1 : about);
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
