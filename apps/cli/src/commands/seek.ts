import { type Found, foundWords, goalOf, type Mark, seek, spanOf } from '@kerfbook/studies';
import type { Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { asked, asking } from '../asking.ts';
import type { ExitCode, Io } from '../io.ts';
import { openAndSet } from '../open-set.ts';
import { printJson } from '../visible.ts';
import type { Command } from './command.ts';

/** `seek`: which input makes a result come to something. */
export const seekCommand: Command = {
  name: 'seek',
  usage:
    'seek FILE --make name=entry|"name at most entry" --by name[=from..to[/step]] [--keep] [--set name=entry]… [--json]',
  does: 'looks for the input that makes a result what it should be, within the range of its cell or another; --keep: only where no check says stop',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      make: { type: 'string' },
      by: { type: 'string' },
      keep: { type: 'boolean' },
      set: { type: 'string', multiple: true },
      json: { type: 'boolean' },
    });
    const { make, by } = values;
    if (make === undefined) throw new Misuse('Nothing is sought. Give --make name=entry.');
    if (by === undefined) throw new Misuse('Give --by the name of the input that may change.');
    const opened = await openAndSet('seek in', positionals, values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    const [, name = '', range = ''] = /^([^\s=]+)\s*=?\s*(.*)$/su.exec(by.trim()) ?? [];
    const sought = asked(() => ({
      goal: goalOf(book, make),
      span: spanOf(book, name, range),
      keep: values.keep === true,
    }));
    for (const { cell, says } of refused) io.err(`${cell} ${says}`);
    const ended = await asking(book, io, 400, (asker, waited) => seek(book, asker, sought, waited));
    if (ended === undefined) return 2;
    const code = seekReport(book, ended.result, values.json === true, io);
    return refused.length > 0 && code === 0 ? 1 : code;
  },
};

/** Prints what a seek found; 1 where nothing was. */
export function seekReport(book: Workbook, found: Found, json: boolean, io: Io): ExitCode {
  const { crossings, stretches } = found;
  const isFound = crossings.length + stretches.length > 0;
  if (json) {
    printJson(io, {
      by: found.span.cell.name ?? '',
      result: found.goal.cell.name ?? '',
      answers: crossings.flatMap(({ exact }) => (exact === undefined ? [] : plain(exact))),
      jumps: crossings.flatMap(({ exact, between }) =>
        exact === undefined ? [between.map(plain)] : [],
      ),
      stretches: stretches.map(({ from, to }) => ({ from: plain(from), to: plain(to) })),
      reach: found.reach?.map(plain) ?? null,
      refused: found.refused.length,
      lost: found.lost,
      tried: found.tried,
      apart: found.apart,
    });
  } else for (const line of foundWords(book, found)) io.out(line);
  return isFound ? 0 : 1;
}

const plain = ({ at, comes, failing }: Mark) => ({ at, comes: comes ?? null, failing });
