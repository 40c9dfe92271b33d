import type { Imported } from '@kerfbook/interchange';
import { Workbook } from '@kerfbook/workbook';
import { kerfTrouble, listContext, readList } from '@kerfbook/workbook/from-text';
import type { ImportAsked } from '../import-thread.ts';
import type { ExitCode, Io } from '../io.ts';

/** A file that was read, and how the command ends; without one where what goes with it cannot be read, which is said. */
interface Made {
  readonly made?: Imported;
  readonly ends: ExitCode;
}

/**
 * Reads a file, and with it the boards that its parts are cut from and the width of the saw's cut. Numbers without a
 * unit are in that of the workbook, which the file may decide: it is read once before.
 */
export async function importWithShop(
  asked: ImportAsked,
  { boards, kerf }: { readonly boards?: string; readonly kerf?: string },
  io: Io,
): Promise<Made> {
  const first = await io.importFile(asked);
  if (!first.ok || (boards === undefined && kerf === undefined)) return { made: first, ends: 0 };
  const book = Workbook.open(first.document);
  const trouble = kerf === undefined ? undefined : kerfTrouble(kerf, book.units);
  if (trouble !== undefined) {
    io.err(`--kerf: ${trouble}`);
    return { ends: 2 };
  }
  const list = boards === undefined ? undefined : await io.read(boards);
  if (list?.ok === false) {
    io.err(list.says);
    return { ends: 2 };
  }
  const reading = readList(list?.text ?? '', listContext(book, 'stock'));
  if (list !== undefined && reading.refused !== undefined) {
    io.err(reading.refused);
    return { ends: 2 };
  }
  const missed = reading.unread.filter(({ expected }) => !expected);
  for (const { line, says } of reading.rows) {
    if (says.length > 0) io.err(`${boards}, line ${line}: ${says.join(' ')}`);
  }
  for (const { line, text, says } of missed) {
    io.err(`${boards}, line ${line} is not taken: ${text} (${says})`);
  }
  const shop = { kerf: kerf ?? '', boards: reading.rows.map(({ texts }) => texts) };
  const made = await io.importFile({ ...asked, how: { ...asked.how, shop } });
  return { made, ends: missed.length > 0 ? 1 : 0 };
}
