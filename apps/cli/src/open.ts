import { loadText, Workbook } from '@kerfbook/workbook';
import type { Io } from './io.ts';

export type Opened =
  | { readonly ok: true; readonly book: Workbook }
  | {
      readonly ok: false;
      /** Names the file and says what is wrong, in one sentence. */
      readonly says: string;
      /** It is a workbook, but its parts do not fit together. */
      readonly damaged: boolean;
    };

/** What the engine's catalogue calls a workbook that does not fit the schema. */
const DAMAGED = 'D4';

/** Reads a workbook from a file, which is only ever read. */
export async function openBook(path: string, io: Io): Promise<Opened> {
  const file = await io.read(path);
  if (!file.ok) return { ok: false, says: file.says, damaged: false };
  const loaded = loadText(file.text);
  if (loaded.ok) {
    const says = loaded.migration?.says;
    if (says !== undefined) io.err(`${path}: ${says} Export it as JSON to keep it so.`);
    return { ok: true, book: Workbook.open(loaded.document) };
  }
  return { ok: false, says: `${path}: ${loaded.says}`, damaged: loaded.code === DAMAGED };
}
