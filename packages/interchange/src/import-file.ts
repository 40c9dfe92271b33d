import { readCsvFile } from './csv/read.ts';
import { readPackedFile } from './packed-file.ts';
import { type TakeHow, type TakenIn, takeIn } from './taking/take-in.ts';
import { Unreadable } from './unreadable.ts';

/** A file that became a workbook, or the sentence why it does not. */
export type Imported =
  | ({ readonly ok: true } & TakenIn)
  | { readonly ok: false; readonly says: string };

const PACKED = /\.(?:xlsx|xlsm|xltx|xltm|ods|ots)$/i;
const CSV = /\.(?:csv|tsv|tab|txt)$/i;

/**
 * Makes a workbook of a file of another program: xlsx, ods or csv, by its name, or by how it begins where that says nothing.
 * Whatever the file is, it is a workbook or one sentence; nothing in it is carried out.
 * @param bytes the file, whole
 * @param name what it is called, with its ending
 */
export function importFile(
  bytes: Uint8Array,
  name: string,
  how: Omit<TakeHow, 'title'> & { readonly title?: string } = {},
): Imported {
  const title = (how.title ?? titleOf(name)).slice(0, 200);
  try {
    const isCsv = CSV.test(name) || (!PACKED.test(name) && !looksPacked(bytes));
    const file = isCsv ? readCsvFile(bytes, title, how.units) : readPackedFile(bytes, how.onward);
    return { ok: true, ...takeIn(file, { ...how, title }) };
  } catch (error) {
    if (error instanceof Unreadable) return { ok: false, says: error.message };
    throw error;
  }
}

const looksPacked = (bytes: Uint8Array): boolean =>
  (bytes[0] === 0x50 && bytes[1] === 0x4b) || (bytes[0] === 0xd0 && bytes[1] === 0xcf);

/** What a workbook is called after its file: without folders and ending. */
function titleOf(name: string): string {
  const last = name.split(/[/\\]/).at(-1) ?? '';
  const plain = last
    .replace(/\.[^.]*$/, '')
    .replaceAll(/\p{C}/gu, '')
    .trim();
  return plain === '' ? 'Workbook' : plain;
}
