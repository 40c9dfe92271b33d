import { atMost, cellLettersAtMost, savedLetters } from '../format/size.ts';
import type { BookState } from './state.ts';

/** Letters beside its cells that a row takes in the saved text, at the most; and a column, and a sheet. */
export const PER_ROW = 80;
/** The same of a column. */
export const PER_COLUMN = 70;
const PER_SHEET = 400;

/** How many letters `saveText` would write now. */
export const lettersNow = ({ head, sheets, checks, tables }: BookState): number =>
  savedLetters({
    ...head,
    sheets: sheets.map((sheet) => sheet.counted()),
    checks: [...checks],
    tables: [...tables],
  });

/** The same at the most, found out without writing cells. */
export function lettersAtMost({ head, sheets, checks, tables }: BookState): number {
  let letters = atMost(head) + atMost(checks) + atMost(tables);
  for (const { rows, columns } of sheets) {
    letters += PER_ROW * rows.length + PER_COLUMN * columns.length + PER_SHEET;
    for (const { cells } of rows) {
      for (const [id, cell] of cells) letters += cellLettersAtMost(id, cell);
    }
  }
  return letters;
}

/** Of 20.00001 MB it must not say 20. */
export const megabytes = (letters: number): string =>
  (Math.ceil((letters / 1024 / 1024) * 100) / 100).toFixed(2);
