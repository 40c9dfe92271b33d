import {
  contextOf,
  type Found,
  goalOf,
  type Mark,
  StudyFault,
  seek,
  spanOf,
} from '@kerfbook/studies';
import { type CellView, showWithUnit, type Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { asking } from '../asking.ts';
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
    const asked = read(() => ({
      goal: goalOf(book, make),
      span: spanOf(book, name, range),
      keep: values.keep === true,
    }));
    for (const { cell, says } of refused) io.err(`${cell} ${says}`);
    const ended = await asking(book, io, 400, (asker, waited) => seek(book, asker, asked, waited));
    if (ended === undefined) return 2;
    const code = seekReport(book, ended.result, values.json === true, io);
    return refused.length > 0 && code === 0 ? 1 : code;
  },
};

function read<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof StudyFault) throw new Misuse(error.message);
    throw error;
  }
}

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
  } else for (const line of sentences(book, found)) io.out(line);
  return isFound ? 0 : 1;
}

const plain = ({ at, comes, failing }: Mark) => ({ at, comes: comes ?? null, failing });

function sentences(book: Workbook, found: Found): readonly string[] {
  const { span, goal, crossings, stretches, reach, refused, lost, apart, tried } = found;
  const shown = (cell: CellView, number: number): string =>
    showWithUnit({ kind: 'number', number }, contextOf(book, cell));
  const [input, result] = [span.cell.name ?? '', goal.cell.name ?? ''];
  const at = (mark: Mark): string => shown(span.cell, mark.at);
  const comes = (mark: Mark): string =>
    mark.comes === undefined ? 'no number' : shown(goal.cell, mark.comes);
  const fails = ({ failing }: Mark): string =>
    failing.length === 0
      ? ''
      : ` (${failing.map(({ name, state }) => `${state}: ${name}`).join('; ')})`;
  const lines = [
    ...crossings.map(({ exact, between: [one, other] }) => {
      if (exact === undefined) {
        return `${result} jumps over it: ${comes(one)} at ${input} ${at(one)}, ${comes(other)} at ${at(other)}.`;
      }
      const marks =
        one.at === other.at || one.at === exact.at || other.at === exact.at
          ? ''
          : ` Next to it: ${comes(one)} at ${at(one)}, ${comes(other)} at ${at(other)}.`;
      return `${input} ${at(exact)} makes ${result} ${comes(exact)}${fails(exact)}.${marks}`;
    }),
    ...stretches.map(({ from, to }) =>
      from.at === to.at
        ? `${input} ${at(from)}: ${result} ${comes(from)}${fails(from)}.`
        : `${input} from ${at(from)} to ${at(to)}: ${result} ${comes(from)} to ${comes(to)}${fails(to)}.`,
    ),
  ];
  if (lines.length === 0) {
    lines.push(
      reach === undefined
        ? `${result} comes to no number anywhere between ${shown(span.cell, span.from)} and ${shown(span.cell, span.to)}.`
        : `No ${input} between ${shown(span.cell, span.from)} and ${shown(span.cell, span.to)} does it: ${result} comes to ${comes(reach[0])} at ${at(reach[0])} and to ${comes(reach[1])} at ${at(reach[1])}.`,
    );
  }
  if (refused.length > 0) {
    const stops = new Set(refused.flatMap(({ failing }) => failing.map(({ name }) => name)));
    lines.push(`Left out, since a check says stop: ${refused.length} (${[...stops].join(', ')}).`);
  }
  if (lost > 0) lines.push(`${result} comes to no number at ${lost} of the places tried.`);
  lines.push(
    `${tried} places were tried, at first ${shown(span.cell, apart)} apart; what happens between them was not looked at.`,
  );
  return lines;
}
