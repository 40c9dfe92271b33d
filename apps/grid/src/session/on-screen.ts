import type { SheetView } from '@kerfbook/workbook';

/** As wide as any column, px, where nothing was said. */
export const USUAL_WIDTH = 100;
/** How wide the column of row numbers is, px. */
export const NUMBERS_WIDTH = 46;
/** Beside a number on a phone: half of what a finger takes hold of at its corner, px. */
const BESIDE = 24;
/** Names of numbers are never cut shorter than this, px. */
const LEAST = 110;

/** A phone: a name, its number and what is said of it have no room beside each other. */
const PHONE =
  typeof matchMedia === 'function' ? matchMedia('(max-width: 600px)') : { matches: false };

/** Whether the screen is a phone's now. */
export const isPhone = (): boolean => PHONE.matches;

/** Tells when the screen becomes a phone's or another one, as when it is turned. */
export function onTurned(does: () => void): () => void {
  if (!(PHONE instanceof EventTarget)) return () => undefined;
  PHONE.addEventListener('change', does);
  return () => PHONE.removeEventListener('change', does);
}

/** How many columns stay in sight: on a phone the first one, so that a maker sees what a number is that he changes. */
export const pinnedColumns = (sheet: SheetView | undefined): number => {
  const pinned = sheet?.frozenColumns ?? 0;
  return PHONE.matches && sheet?.hidden.includes(0) === false ? Math.max(1, pinned) : pinned;
};

/** How wide a column is on this screen: on a phone the first one leaves the next its room. */
export function columnWidth(sheet: SheetView | undefined, column: number): number {
  const own = sheet?.widths[column] ?? USUAL_WIDTH;
  if (column > 0 || !PHONE.matches || pinnedColumns(sheet) !== 1) return own;
  const beside = Math.min(sheet?.widths[1] ?? USUAL_WIDTH, innerWidth / 2);
  return Math.min(own, Math.max(LEAST, innerWidth - NUMBERS_WIDTH - BESIDE - beside));
}
