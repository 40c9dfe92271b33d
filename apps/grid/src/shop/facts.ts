import { KNOWN_NAMES, type Reader, readersOf } from '@kerfbook/workbook';

/** Named cells that a shop sheet shows as they are, each with what it is called there. */
export type Facts = readonly (readonly [name: string, says: string])[];

/** The lines of a sheet; what it is reckoned from besides is in the sheet itself. */
export const factsOf = (reader: Reader): Facts =>
  KNOWN_NAMES[reader].names.flatMap(({ name, means, without }) =>
    without === undefined ? [[name, means] as const] : [],
  );

/** The shop sheets that a cell of this name comes on; the cutting plan is told by the workbook. */
export const sheetsThatRead = (name: string): readonly string[] =>
  readersOf(name).flatMap(({ reader, says }) => (reader === 'cutting-plan' ? [] : [says]));
