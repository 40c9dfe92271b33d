/** Letters that a name has at most in the open format. */
const LONGEST_NAME = 255;
const LETTERS = /^[\p{L}_\\][\p{L}\p{M}\p{Nd}_.]*$/u;
/** Columns go to XFD there, rows to 1,048,576; whatever comes near may not be a name. */
const CELL_LIKE = /^[a-z]{1,3}\d+$/i;
const ROW_AND_COLUMN = /^(?:r\d*)?(?:c\d*)?$/i;

/** Whether other programs take a name of ours (ECMA-376 part 1, 18.2.5). */
export const isNameThere = (name: string): boolean =>
  name.length <= LONGEST_NAME &&
  LETTERS.test(name) &&
  !CELL_LIKE.test(name) &&
  !ROW_AND_COLUMN.test(name);

/** What the range of a table is called in a file of ours. */
export const tableName = (kind: string, number: number): string =>
  `kerfbook_table_${kind}${number === 1 ? '' : `_${number}`}`;

const TABLE_NAME = /^kerfbook_table_([a-z]+)(?:_\d+)?$/;

/** The kind of table that such a range is; undefined where it is another name. */
export const tableKind = (name: string): string | undefined => TABLE_NAME.exec(name)?.[1];
