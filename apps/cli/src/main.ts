import { Misuse } from './arguments.ts';
import { checkCommand } from './commands/check.ts';
import type { Command } from './commands/command.ts';
import { compareCommand } from './commands/compare.ts';
import { daysCommand } from './commands/days.ts';
import { evalCommand } from './commands/eval.ts';
import { explainCommand } from './commands/explain.ts';
import { exportCommand } from './commands/export.ts';
import { functionsCommand } from './commands/functions.ts';
import { guideCommand } from './commands/guide.ts';
import { importCommand } from './commands/import.ts';
import { mergeCommand } from './commands/merge.ts';
import { partsCommand } from './commands/parts.ts';
import { planCommand } from './commands/plan.ts';
import { quoteCommand } from './commands/quote.ts';
import { runCommand } from './commands/run.ts';
import { seekCommand } from './commands/seek.ts';
import { shelfCommands } from './commands/shelf.ts';
import { studyCommand } from './commands/study.ts';
import { unitsCommand } from './commands/units.ts';
import type { ExitCode, Io } from './io.ts';
import { visibly } from './visible.ts';

export type { ExitCode, FileText, Io } from './io.ts';
export { nodeIo } from './node-io.ts';
export { startSweepThread } from './sweep-thread.ts';

const COMMANDS: readonly Command[] = [
  evalCommand,
  runCommand,
  studyCommand,
  seekCommand,
  checkCommand,
  explainCommand,
  partsCommand,
  planCommand,
  daysCommand,
  exportCommand,
  importCommand,
  guideCommand,
  quoteCommand,
  mergeCommand,
  compareCommand,
  unitsCommand,
  functionsCommand,
  ...shelfCommands,
];

/**
 * The command line: results go to `io.out`, complaints to `io.err`.
 * @param argv the words after `kerfbook`
 * @returns 0 done, 1 the book has problems, 2 bad usage or an unreadable file
 */
export async function run(argv: readonly string[], world: Io): Promise<ExitCode> {
  const io = visibly(world);
  const [word, ...after] = argv;
  if (word === undefined) {
    for (const line of help()) io.err(line);
    return 2;
  }
  if (word === '--help' || word === '-h' || word === 'help') {
    for (const line of help()) io.out(line);
    return 0;
  }
  const { meant, rest } = commandsMeant(word, after);
  const [command] = meant;
  if (command === undefined) {
    const names = COMMANDS.map(({ name }) => name).join(', ');
    io.err(`There is no command "${word}". The commands are ${names}.`);
    return 2;
  }
  if (rest.includes('--help')) {
    for (const { usage, does } of meant) {
      io.out(`kerfbook ${usage}`);
      io.out(`  ${does}`);
    }
    return 0;
  }
  if (meant.length > 1) {
    const names = meant.map(({ name }) => `kerfbook ${name}`).join(', ');
    io.err(`What is to be done with the ${word} is not said. There are ${names}.`);
    return 2;
  }
  return runCarefully(command, rest, io);
}

/** The command that was called, of one word or two; all that begin with the word, where the second is none of theirs. */
function commandsMeant(
  word: string,
  after: readonly string[],
): { readonly meant: readonly Command[]; readonly rest: readonly string[] } {
  const [second, ...rest] = after;
  const exact = COMMANDS.find(({ name }) => name === word);
  if (exact !== undefined) return { meant: [exact], rest: after };
  const ofTwo = COMMANDS.find(({ name }) => name === `${word} ${second}`);
  if (ofTwo !== undefined) return { meant: [ofTwo], rest };
  return { meant: COMMANDS.filter(({ name }) => name.startsWith(`${word} `)), rest: after };
}

async function runCarefully(command: Command, args: readonly string[], io: Io): Promise<ExitCode> {
  try {
    return await command.run(args, io);
  } catch (error) {
    if (!(error instanceof Misuse)) throw error;
    io.err(error.message);
    io.err(`Usage: kerfbook ${command.usage}`);
    return 2;
  }
}

function help(): string[] {
  return [
    'kerfbook: the workbook without a browser.',
    '',
    ...COMMANDS.flatMap(({ usage, does }) => [`kerfbook ${usage}`, `  ${does}`]),
    '',
    'Results go to standard output, complaints to standard error.',
    'Exit code: 0 done, 1 the book has problems, 2 bad usage or an unreadable file.',
  ];
}
