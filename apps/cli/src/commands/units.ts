import { roundFigures, saveText } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { openAndSet } from '../open-set.ts';
import type { Command } from './command.ts';

/** `units`: a workbook in inches or in millimeters, written to a file of its own. */
export const unitsCommand: Command = {
  name: 'units',
  usage: 'units FILE --to us|metric --out PATH [--round] [--force]',
  does: 'writes the workbook in other units: its values, ranges and the lengths in its formulas; turned back, it is the same to the letter. With --round, sizes go to whole marks of a metric rule, as when a built-in template is turned to millimeters in the app',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      to: { type: 'string' },
      out: { type: 'string' },
      round: { type: 'boolean' },
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
    if (values.round === true && to !== 'metric') {
      throw new Misuse('--round goes with --to metric: sizes in inches are left as they are.');
    }
    const opened = await openAndSet('turn into other units', positionals, undefined, io);
    if (opened === undefined) return 2;
    const { book } = opened;
    const done = book.apply({ do: 'changeUnits', to });
    if (!done.ok) {
      io.err(done.says);
      return 1;
    }
    const edit = values.round === true ? roundFigures(book.document()) : undefined;
    const rounded = edit === undefined ? undefined : book.apply(edit);
    if (rounded?.ok === false) {
      io.err(rounded.says);
      return 1;
    }
    const trouble = await io.write(out, saveText(book.document()), values.force === true);
    if (trouble !== undefined) io.err(trouble);
    return trouble === undefined ? 0 : 2;
  },
};
