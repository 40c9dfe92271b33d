import { type BookDocument, documentChanges, mergeLogs, saveText } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import type { Io } from '../io.ts';
import { readBook } from '../open.ts';
import type { Command } from './command.ts';

/** `merge`: two workbooks that were one once, put together; where they meet is told. */
export const mergeCommand: Command = {
  name: 'merge',
  usage: 'merge BASE MINE THEIRS --out PATH [--force]',
  does: 'puts together what two changed in one workbook since BASE, writes it to a file and tells where both changed the same; exit code 1 where there is such a place',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      out: { type: 'string' },
      force: { type: 'boolean' },
    });
    const { out } = values;
    if (out === undefined || out === '')
      throw new Misuse('--out says where the file goes; it is missing.');
    const [base, mine, theirs] = await workbooks(positionals, io);
    if (base === undefined || mine === undefined || theirs === undefined) return 2;
    const merged = mergeLogs(base.document, [logSince(base, mine), logSince(base, theirs)]);
    if (!merged.ok) {
      io.err(merged.says);
      return 1;
    }
    const trouble = await io.write(out, saveText(merged.document), values.force === true);
    if (trouble !== undefined) {
      io.err(trouble);
      return 2;
    }
    for (const { says } of merged.conflicts) io.out(says);
    if (merged.conflicts.length === 0) io.out(`${out}: nothing was changed in both.`);
    return merged.conflicts.length === 0 ? 0 : 1;
  },
};

interface File {
  readonly path: string;
  readonly document: BookDocument;
}

/** The three workbooks; one that cannot be read is told and left out. */
async function workbooks(paths: readonly string[], io: Io): Promise<readonly (File | undefined)[]> {
  if (paths.length !== 3) {
    throw new Misuse(
      `merge takes three workbooks: the one that both began with, and the two that became of it. It got ${paths.length}.`,
    );
  }
  const files: (File | undefined)[] = [];
  for (const path of paths) {
    const read = await readBook(path, io);
    if (read.ok) files.push({ path, document: read.document });
    else {
      io.err(read.says);
      files.push(undefined);
    }
  }
  return files;
}

const logSince = (base: File, { path, document }: File) => ({
  name: path,
  changes: documentChanges(base.document, document),
});
