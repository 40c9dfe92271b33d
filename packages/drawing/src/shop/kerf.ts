import type { OpenWorkbook } from '@kerfbook/workbook';
import { mmFromOwn } from '../units.ts';
import { isBlank, written } from '../value-words.ts';

/** How wide a saw cut is, as a workbook says it. */
export interface Kerf {
  /** 0 where the workbook does not say. */
  readonly mm: number;
  /** What to do where it does not say, a sentence; left out where it does. */
  readonly says?: string;
}

const UNTIL = 'Until then saw cuts count as taking no wood, and what is planned may not fit.';

/**
 * The kerf a workbook's plans reckon with: the cell named `kerf`. A plan without one comes out too
 * short at the saw, so that whoever shows it says what is missing.
 */
export function kerfOf(book: Pick<OpenWorkbook, 'named' | 'sheet' | 'units'>): Kerf {
  const cell = book.named('kerf');
  if (cell === undefined) {
    return {
      mm: 0,
      says: `How wide is your saw's kerf? Type its width into a cell and name that cell kerf. ${UNTIL}`,
    };
  }
  const where = `${book.sheet(cell.at.sheet)?.name ?? ''}!${cell.address}`;
  const { value } = cell;
  if (isBlank(value)) {
    return { mm: 0, says: `How wide is your saw's kerf? Type it in ${where}. ${UNTIL}` };
  }
  if (value.kind === 'number' && value.number >= 0) {
    return { mm: mmFromOwn(value.number, book.units) };
  }
  const unit = book.units === 'us' ? 'inches' : 'millimeters';
  return {
    mm: 0,
    says: `The kerf in ${where} is ${written(value)}; it takes the width of a saw cut in ${unit}, 0 or more. ${UNTIL}`,
  };
}
