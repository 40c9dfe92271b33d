import type { OpenWorkbook } from '@kerfbook/workbook';
import type { PartProblem } from '../parts-source.ts';
import { mmFromOwn } from '../units.ts';
import { isBlank, written } from '../value-words.ts';

/** How wide a saw cut is, as a workbook says it. */
export interface Kerf {
  /** 0 where the workbook does not say. */
  readonly mm: number;
  /** What to do where it does not say, a sentence; left out where it does. */
  readonly says?: string;
}

/** What is cut off each end of a board that is bought, as a workbook says it. */
export interface EndTrim {
  /** 0 where the workbook does not say. */
  readonly mm: number;
  /** What in its cell cannot be read. */
  readonly problem?: PartProblem;
}

/** What the plans of a workbook leave at the ends of boards that are bought: the cell named `end_trim`. */
export function endTrimOf(book: Pick<OpenWorkbook, 'named' | 'sheet' | 'units'>): EndTrim {
  const cell = book.named('end_trim');
  if (cell === undefined || isBlank(cell.value)) return { mm: 0 };
  const { at, value } = cell;
  if (value.kind === 'number' && value.number >= 0) {
    return { mm: mmFromOwn(value.number, book.units) };
  }
  const unit = book.units === 'us' ? 'inches' : 'millimeters';
  const where = `${book.sheet(at.sheet)?.name ?? ''}!${cell.address}`;
  const says = `What is trimmed off each end of a board is ${written(value)} in ${where}; it takes a length in ${unit}, 0 or more. Until then boards are planned from end to end.`;
  return { mm: 0, problem: { at, says } };
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
