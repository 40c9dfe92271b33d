import { columnName } from '@kerfbook/document';

/** A cell as the file has it: `My parts!B7`. */
export const placeName = (sheet: string, row: number, column: number): string =>
  `${sheet}!${columnName(column)}${row + 1}`;
