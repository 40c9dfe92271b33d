import {
  exampleResults,
  type FunctionPage,
  functionPages,
  functionReference,
} from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import { printJson } from '../visible.ts';
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
    if (values.json === true) printJson(io, functionReference().map(recordOf));
    else for (const line of listing()) io.out(line);
    return 0;
  },
};

/** Everything of a description but the function itself. */
function recordOf({ run: _, ...about }: Description) {
  return about;
}

function listing(): string[] {
  const pages = functionPages('us');
  const results = exampleResults(pages);
  const tasks = [...new Set(pages.map(({ task }) => task))];
  return tasks.flatMap((task, index) => [
    ...(index === 0 ? [] : ['']),
    task,
    ...pages.filter((one) => one.task === task).flatMap((one) => linesOf(one, results)),
  ]);
}

function linesOf(one: FunctionPage, results: ReadonlyMap<string, string>): string[] {
  return [
    `  ${one.call}`,
    `      ${one.answers}`,
    ...one.args.map(({ name, says }) => `      ${name}: ${says}`),
    `      gives: ${one.gives}`,
    `      ${one.example} is ${results.get(one.name) ?? ''}`,
    ...(one.notes === undefined ? [] : [`      ${one.notes}`]),
    `      source: ${one.source}`,
  ];
}
