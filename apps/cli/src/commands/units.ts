import { saveText } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { openAndSet } from '../open-set.ts';
import type { Command } from './command.ts';

/** `units`: a workbook in inches or in millimetres, written to a file of its own. */
export const unitsCommand: Command = {
  name: 'units',
  usage: 'units FILE --to us|metric --out PATH [--force]',
  does: 'writes the workbook in other units: its values, ranges and the lengths in its formulas; turned back, it is the same to the letter',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      to: { type: 'string' },
      out: { type: 'string' },
      force: { type: 'boolean' },
    });
    const { to, out } = values;
    if (to !== 'us' && to !== 'metric') {
      throw new Misuse(
        `--to takes us or metric; ${to === undefined ? 'it is missing' : `it got "${to}"`}.`,
      );
    }
    if (out === undefined || out === '')
      throw new Misuse('--out says where the file goes; it is missing.');
    const opened = await openAndSet('turn into other units', positionals, undefined, io);
    if (opened === undefined) return 2;
    const { book } = opened;
    const done = book.apply({ do: 'changeUnits', to });
    if (!done.ok) {
      io.err(done.says);
      return 1;
    }
    const trouble = await io.write(out, saveText(book.document()), values.force === true);
    if (trouble !== undefined) io.err(trouble);
    return trouble === undefined ? 0 : 2;
  },
};
