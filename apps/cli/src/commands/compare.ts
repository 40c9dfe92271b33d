import { compared, type Listed } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { readBook } from '../open.ts';
import type { Command } from './command.ts';

/** `compare`: what is otherwise in a second workbook. */
export const compareCommand: Command = {
  name: 'compare',
  usage: 'compare FIRST SECOND [--json]',
  does: 'tells what was typed or set otherwise in SECOND than in FIRST, and which results differ by that; one in other units is converted first, and two that did not come of one workbook are compared by the names of their cells; exit code 1 where they differ',
  async run(args, io) {
    const { values, positionals } = readArguments(args, { json: { type: 'boolean' } });
    const [first, second, ...more] = positionals;
    if (first === undefined || second === undefined || more.length > 0) {
      throw new Misuse(`compare takes two workbooks. It got ${positionals.length}.`);
    }
    const [one, other] = [await readBook(first, io), await readBook(second, io)];
    for (const read of [one, other]) if (!read.ok) io.err(read.says);
    if (!one.ok || !other.ok) return 2;
    const found = compared(one.document, other.document);
    const differs = found.typed.length + found.results.length > 0;
    if (values.json === true) {
      const { kin, turned } = found;
      const [typed, results] = [found.typed.map(plain), found.results.map(plain)];
      io.out(JSON.stringify({ related: kin, converted: turned, typed, results }));
      return differs ? 1 : 0;
    }
    if (!found.kin) {
      io.out(
        'The two did not come of one workbook: they are compared by the names of their cells.',
      );
    }
    if (found.turned) {
      io.out(`${first} counts in other units; it was converted to those of ${second}.`);
    }
    for (const line of found.typed) io.out(inOneLine(line));
    if (found.results.length > 0) io.out('Results that differ:');
    for (const line of found.results) io.out(inOneLine(line));
    if (!differs) io.out(`${first} and ${second} do not differ.`);
    return differs ? 1 : 0;
  },
};

const plain = ({ kind, sheet, what, before, after }: Listed) => ({
  kind,
  sheet,
  what,
  before,
  after,
});

function inOneLine({ sheet, what, before, after }: Listed): string {
  const where = sheet === '' ? what : `${sheet}, ${what}`;
  return `${where}: ${oneLine(before)} → ${oneLine(after)}`;
}

const oneLine = (text: string): string =>
  text === '' ? 'nothing' : text.replaceAll(/\s*\n\s*/g, ' ');
