import { functionReference } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import type { Command } from './command.ts';

type Description = ReturnType<typeof functionReference>[number];

/** `functions`: the reference, from the descriptions the engine itself registers. */
export const functionsCommand: Command = {
  name: 'functions',
  usage: 'functions [--json]',
  does: 'lists the woodworking functions: what each answers, takes, gives and rests on',
  async run(args, io) {
    const { values, positionals } = readArguments(args, { json: { type: 'boolean' } });
    if (positionals.length > 0)
      throw new Misuse(`functions takes no words; "${positionals[0]}" is one.`);
    const all = functionReference();
    if (values.json === true) io.out(JSON.stringify(all.map(recordOf), null, 2));
    else for (const line of listing(all)) io.out(line);
    return 0;
  },
};

/** Everything of a description but the function itself. */
function recordOf({ run: _, ...about }: Description) {
  return about;
}

function listing(all: readonly Description[]): string[] {
  const tasks = [...new Set(all.map(({ task }) => task))];
  return tasks.flatMap((task, index) => [
    ...(index === 0 ? [] : ['']),
    task,
    ...all.filter((one) => one.task === task).flatMap(linesOf),
  ]);
}

function linesOf(one: Description): string[] {
  const args = one.args.map(({ name, optional }) => (optional ? `[${name}]` : name));
  return [
    `  ${one.name}(${args.join(', ')})`,
    `      ${one.answers}`,
    `      ${one.example}   source: ${one.source}`,
  ];
}
