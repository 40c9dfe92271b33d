import type { Edit, OpenWorkbook, Photo } from '@kerfbook/workbook';
import { cellOf, entryEdit, type StepRow, type StepsTable } from './steps-table.ts';

type Photos = Readonly<Record<string, Photo>>;

/** A photograph is named in these: the name stands in a cell, and in the pages made of the plan. */
const NAMED = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;

/** The edit that keeps these photographs in the workbook, and no others. */
export const photosEdit = (photos: Photos): Edit => ({
  do: 'setBook',
  set: { photos: Object.keys(photos).length === 0 ? null : { ...photos } },
});

/** The steps in whose cell a photograph is named; a formula may name it too, and is not among them. */
export function usersOf(
  book: OpenWorkbook,
  table: StepsTable | undefined,
  name: string,
): readonly StepRow[] {
  if (table === undefined) return [];
  return table.rows.filter(({ row }) => cellOf(book, table, row, 'photo')?.entry === name);
}

/** Takes a photograph out, and its name out of the steps that show it. */
export function removeEdit(book: OpenWorkbook, table: StepsTable | undefined, name: string): Edit {
  const { [name]: _, ...left } = book.head.photos ?? {};
  return { do: 'batch', edits: [photosEdit(left), ...named(book, table, name, '')] };
}

/** Calls a photograph otherwise, in the steps that show it too. A sentence where the name will not do. */
export function renameEdit(
  book: OpenWorkbook,
  table: StepsTable | undefined,
  from: string,
  to: string,
): Edit | string {
  const photos = book.head.photos ?? {};
  if (!NAMED.test(to)) {
    return 'A photograph is named in small letters, digits and hyphens, such as glue-up-2.';
  }
  if (to.length > 40) return 'This name is too long. 40 letters are the most.';
  if (to !== from && photos[to] !== undefined) {
    return `There is a photograph named "${to}" already. Choose another name.`;
  }
  const renamed = Object.fromEntries(
    Object.entries(photos).map(([name, photo]) => [name === from ? to : name, photo]),
  );
  return { do: 'batch', edits: [photosEdit(renamed), ...named(book, table, from, to)] };
}

const named = (
  book: OpenWorkbook,
  table: StepsTable | undefined,
  from: string,
  to: string,
): readonly Edit[] =>
  table === undefined
    ? []
    : usersOf(book, table, from).map(({ row }) => entryEdit(book, table, row, 'photo', to));
