import type { Imported } from '@kerfbook/interchange';
import { saveText } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import type { ImportAsked } from '../import-thread.ts';
import type { Io } from '../io.ts';
import type { Command } from './command.ts';
import { importWithShop } from './import-shop.ts';

const UNITS = ['us', 'metric'] as const;

/** `import`: a file of another program as a workbook, and what of it did not come over. */
export const importCommand: Command = {
  name: 'import',
  usage:
    'import IN.xlsx|IN.ods|IN.csv --out FILE [--force] [--units us|metric] [--bare] [--parts [--boards LIST] [--kerf ENTRY]]',
  does: 'makes a workbook of an xlsx, ods or csv file, and says cell by cell what did not come over. With --parts, the first list of parts in it becomes the parts table; --boards reads the boards they are cut from, a line each, and --kerf is the width of the saw’s cut, such as 1/8: both are wanted for a cutting plan',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      out: { type: 'string' },
      force: { type: 'boolean' },
      units: { type: 'string' },
      bare: { type: 'boolean' },
      parts: { type: 'boolean' },
      boards: { type: 'string' },
      kerf: { type: 'string' },
    });
    const [path, ...more] = positionals;
    if (path === undefined) throw new Misuse('There is no file to import.');
    if (more.length > 0) throw new Misuse(`import takes one file; "${more[0]}" is one too many.`);
    const { out } = values;
    if (out === undefined || out === '')
      throw new Misuse('--out says where the workbook goes; it is missing.');
    const units = UNITS.find((one) => one === values.units);
    if (values.units !== undefined && units === undefined) {
      throw new Misuse(`--units takes us or metric; it got "${values.units}".`);
    }
    for (const only of ['boards', 'kerf'] as const) {
      if (values[only] === undefined || values.parts === true) continue;
      throw new Misuse(
        `--${only} goes with --parts, which makes a list of the file the parts table.`,
      );
    }
    const file = await io.readBytes(path);
    if (!file.ok) {
      io.err(file.says);
      return 2;
    }
    const asked: ImportAsked = {
      bytes: file.bytes,
      name: path,
      how: {
        ...(units === undefined ? {} : { units }),
        isBare: values.bare === true,
        parts: values.parts === true,
      },
    };
    const { made, ends } = await importWithShop(asked, values, io);
    if (made === undefined) return 2;
    if (!made.ok) {
      io.err(`${path}: ${made.says}`);
      return 2;
    }
    const trouble = await io.write(out, saveText(made.document), values.force === true);
    if (trouble !== undefined) {
      io.err(trouble);
      return 2;
    }
    report(made, { io, isBare: values.bare === true, withParts: values.parts === true });
    return ends;
  },
};

interface Reporting {
  readonly io: Io;
  readonly isBare: boolean;
  readonly withParts: boolean;
}

function report(
  { counts, told, guesses, parts }: Imported & { readonly ok: true },
  { io, isBare, withParts }: Reporting,
): void {
  const { sheets, cells, formulas, asValues } = counts;
  io.out(
    `${sheets} ${sheets === 1 ? 'sheet' : 'sheets'}, ${cells} cells; ${formulas} formulas go on working, ${asValues} stand as their last value.`,
  );
  for (const { of, says } of told) io.out(`${of}: ${says}`);
  if (guesses.length > 0) {
    io.out(
      isBare
        ? 'What its numbers look like was not taken:'
        : 'What its numbers look like was taken; --bare leaves them bare:',
    );
    for (const { says } of guesses) io.out(`  ${says}`);
  }
  for (const [at, { says }] of parts.entries()) {
    const is = withParts && at === 0;
    io.out(
      `${says} ${is ? 'It is the parts table.' : '--parts makes the first such list the parts table.'}`,
    );
  }
}
