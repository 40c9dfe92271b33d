import { type Alone, type CellValue, showValue, showWithUnit, workOut } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { type Plain, type PlainError, plainValue } from '../values.ts';
import { printJson } from '../visible.ts';
import type { Command } from './command.ts';

type ShowContext = Alone['context'];
type System = ShowContext['system'];

/** `eval`: formulas without a book, each on its own. */
export const evalCommand: Command = {
  name: 'eval',
  usage: 'eval "=FORMULA"… [--units us|metric] [--json]',
  does: 'works out formulas without a workbook',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      units: { type: 'string' },
      json: { type: 'boolean' },
    });
    const system = unitsOf(values.units);
    if (positionals.length === 0) throw new Misuse('There is no formula to work out.');
    const answers = workOut(positionals.map(formulaOf), system);
    if (values.json === true) {
      printJson(io, answers.map(entryOf));
    } else {
      for (const answer of answers) {
        io.out(textOf(answer, showWithUnit));
        for (const { says } of errorsOf(answer)) io.err(`${answer.formula}: ${says}`);
      }
    }
    return answers.some((answer) => errorsOf(answer).length > 0) ? 1 : 0;
  },
};

function unitsOf(word: string | undefined): System {
  if (word === undefined || word === 'us' || word === 'metric') return word ?? 'us';
  throw new Misuse(`--units takes us or metric; it got "${word}".`);
}

function formulaOf(text: string): string {
  if (text.trimStart().startsWith('=')) return text.trim();
  throw new Misuse(`"${text}" is no formula: a formula begins with =.`);
}

function errorsOf({ rows }: Alone): PlainError[] {
  return rows.flat().flatMap((value) => errorOf(value) ?? []);
}

function errorOf(value: CellValue): PlainError | undefined {
  return value.kind === 'error' ? { error: value.error.word, says: value.error.says } : undefined;
}

type Entry =
  | { readonly value: Plain | (Plain | PlainError)[][]; readonly text: string }
  | PlainError;

function entryOf(answer: Alone): Entry {
  const text = textOf(answer, (value, context) => showValue(value, context).text);
  if (answer.array) {
    return {
      value: answer.rows.map((row) => row.map((value) => errorOf(value) ?? plainValue(value))),
      text,
    };
  }
  const value: CellValue = answer.rows[0]?.[0] ?? { kind: 'empty' };
  return errorOf(value) ?? { value: plainValue(value), text };
}

/** Columns parted by tabs and rows by line ends, as a clipboard has them. */
function textOf(answer: Alone, show: (value: CellValue, context: ShowContext) => string): string {
  return answer.rows
    .map((row) => row.map((value) => show(value, answer.context)).join('\t'))
    .join('\n');
}
