import type { Workbook } from '@kerfbook/workbook';
import { Misuse } from './arguments.ts';
import { entryOf, type Refusal, type } from './entries.ts';
import type { Io } from './io.ts';
import { openBook } from './open.ts';

/** Opens the one workbook a command is about and types its `--set` entries; undefined: unreadable. */
export async function openAndSet(
  command: string,
  positionals: readonly string[],
  set: readonly string[] | undefined,
  io: Io,
): Promise<{ readonly book: Workbook; readonly refused: readonly Refusal[] } | undefined> {
  const [path, ...more] = positionals;
  if (path === undefined) throw new Misuse(`There is no workbook to ${command}.`);
  if (more.length > 0) {
    throw new Misuse(`${command} takes one workbook; "${more[0]}" is one too many.`);
  }
  const opened = await openBook(path, io);
  if (!opened.ok) {
    io.err(opened.says);
    return undefined;
  }
  const { book } = opened;
  const entries = (set ?? []).map((word) => entryOf(book, word));
  return { book, refused: entries.flatMap((entry) => type(book, entry)) };
}
