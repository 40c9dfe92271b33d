import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join } from 'node:path';
import { readersPage, readersScript } from '@kerfbook/guide';
import type { Workbook } from '@kerfbook/workbook';
import type { ExitCode, Io } from '../io.ts';

/** How a page for readers is written. */
export interface ReadersOptions {
  /** Where the page goes. */
  readonly out: string;
  /** What is there already is written over. */
  readonly force: boolean;
  /** Script and styles go beside it, into files of their own. */
  readonly split: boolean;
  /** The day that stands on the cover. */
  readonly day?: string;
}

/** Writes the page that follows its reader's size: one file, or three that lie beside each other. */
export async function writeReadersPage(
  book: Workbook,
  { out, force, split, day }: ReadersOptions,
  io: Io,
): Promise<ExitCode> {
  const document = book.document();
  const program = readFileSync(
    createRequire(import.meta.url).resolve('@kerfbook/guide/readers-program'),
    'utf8',
  );
  const name = basename(out).replace(/\.html?$/i, '');
  const made = readersPage({
    document,
    script: (readers) => readersScript(program, readers),
    sign: (text) => createHash('sha256').update(text).digest('hex'),
    ...(day === undefined ? {} : { day }),
    ...(split ? { split: { script: `${name}.js`, styles: `${name}.css` } } : {}),
  });
  if (!made.ok) {
    io.err(made.says);
    return 1;
  }
  const beside = Object.entries(made.files).map(
    ([file, text]) => [join(dirname(out), file), text] as const,
  );
  for (const [path, text] of [...beside, [out, made.page] as const]) {
    const trouble = await io.write(path, text, force);
    if (trouble !== undefined) {
      io.err(trouble);
      return 2;
    }
  }
  return 0;
}
