import { type Explanation, functionNote, type Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import type { Io } from '../io.ts';
import { openAndSet } from '../open-set.ts';
import { printJson } from '../visible.ts';
import type { Command } from './command.ts';

/** `explain`: what a cell rests on, down to the values of the trade's tables. */
export const explainCommand: Command = {
  name: 'explain',
  usage: 'explain FILE CELL [--set name=entry]… [--json]',
  does: 'tells what a cell is worked out from: inputs, values of the tables, how each was obtained',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      set: { type: 'string', multiple: true },
      json: { type: 'boolean' },
    });
    const [file, cell, ...rest] = positionals;
    if (cell === undefined || rest.length > 0)
      throw new Misuse('explain takes a file and one cell, by its name or as Sheet!B7.');
    const opened = await openAndSet('explain', file === undefined ? [] : [file], values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    const at = book.find(cell);
    if (at === undefined) throw new Misuse(`There is no cell "${cell}" in ${file}.`);
    for (const { cell: where, says } of refused) io.err(`${where} ${says}`);
    const why = book.explain(at);
    if (values.json === true) printJson(io, reportOf(book, why));
    else print(book, why, io);
    return refused.length > 0 || why.error !== undefined ? 1 : 0;
  },
};

function reportOf(book: Workbook, why: Explanation) {
  return {
    cell: why.name ?? why.address,
    shows: book.cell(why.at).shown.text,
    ...(why.formula === undefined ? {} : { formula: why.formula }),
    ...(why.withNumbers === undefined ? {} : { withNumbers: why.withNumbers }),
    rests: why.rests.map(({ label, shown }) => ({ cell: label, shows: shown })),
    tables: why.tables,
    cautions: why.cautions,
    functions: notesOf(why),
    ...(why.error === undefined ? {} : { error: why.error.says }),
  };
}

function print(book: Workbook, why: Explanation, io: Io): void {
  io.out(`${why.name ?? why.address}: ${book.cell(why.at).shown.text}`);
  if (why.error !== undefined) io.out(why.error.says);
  if (why.formula !== undefined) io.out(`Formula: ${why.formula}`);
  if (why.withNumbers !== undefined) io.out(`With numbers: ${why.withNumbers}`);
  section(
    io,
    'Worked out from',
    why.rests.map(({ label, shown }) => `${label}: ${shown}`),
  );
  section(
    io,
    'From the trade’s tables',
    why.tables.map(({ of, shown, how, source, note }) =>
      [`${of}: ${shown === undefined ? '' : `${shown}, `}${how}. ${source}.`, note ?? '']
        .join(' ')
        .trim(),
    ),
  );
  section(io, 'Careful', why.cautions);
  section(
    io,
    'Functions and their sources',
    notesOf(why).map(({ name, source }) => `${name}: ${source.replace(/\.$/, '')}.`),
  );
}

const notesOf = ({ functions }: Explanation) =>
  functions.flatMap((name) => functionNote(name) ?? []);

function section(io: Io, title: string, lines: readonly string[]): void {
  if (lines.length === 0) return;
  io.out(`${title}:`);
  for (const line of lines) io.out(`  ${line}`);
}
