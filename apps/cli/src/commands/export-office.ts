import { drawingForFiles } from '@kerfbook/drawing';
import { type ToldOut, writeCsv, writeOds, writeXlsx } from '@kerfbook/interchange';
import type { Workbook } from '@kerfbook/workbook';
import { Misuse } from '../arguments.ts';

/** What an office program reads, and what in it is otherwise than in the workbook. */
export interface OfficeFile {
  readonly file: string | Uint8Array;
  /** Nothing of this is wrong: a line each for who asked. */
  readonly told: readonly string[];
}

/** The whole workbook as a file of an office program, with its drawing where the file takes it as SVG. */
export function asOffice(book: Workbook, kind: 'xlsx' | 'ods'): OfficeFile {
  const drawing = drawingForFiles(book);
  const { bytes, told, formulas } =
    kind === 'xlsx' ? writeXlsx(book) : writeOds(book, drawing === undefined ? {} : { drawing });
  const { kept, writtenOut, frozen } = formulas;
  return {
    file: bytes,
    told: [
      `${kept + writtenOut} formulas go on working there, ${writtenOut} of them written out in standard functions; ${frozen} stand as their last value.`,
      ...(kind === 'xlsx' && drawing !== undefined
        ? [
            'An xlsx file from the command line has no drawing; an ods file has it, and so has an xlsx file that is saved from the app.',
          ]
        : []),
      ...told.map(({ of, says }: ToldOut) => `${of}: ${says}`),
    ],
  };
}

/**
 * One sheet as comma-separated values.
 * @param name the sheet's; it may be left out where there is only one
 * @throws Misuse where there is no such sheet, or it is not said which
 */
export function asCsv(book: Workbook, name: string | undefined, formulas: boolean): OfficeFile {
  const sheets = book.sheets();
  const names = sheets.map((sheet) => `"${sheet.name}"`).join(', ');
  const [only] = sheets;
  const found =
    name === undefined
      ? sheets.length === 1
        ? only
        : undefined
      : sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
  if (found === undefined) {
    throw new Misuse(
      name === undefined
        ? `A csv file holds one sheet; --sheet takes ${names}.`
        : `There is no sheet "${name}"; --sheet takes ${names}.`,
    );
  }
  return { file: writeCsv(book, found.id, formulas ? 'formulas' : 'values') ?? '', told: [] };
}
