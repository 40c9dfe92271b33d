import { type ParseArgsConfig, parseArgs } from 'node:util';

/** The command was called wrongly; the message says how and what it takes. */
export class Misuse extends Error {
  constructor(says: string) {
    super(says);
    this.name = 'Misuse';
  }
}

type Options = NonNullable<ParseArgsConfig['options']>;

interface Config<T extends Options> {
  readonly args: string[];
  readonly options: T;
  readonly allowPositionals: true;
  readonly strict: true;
}

type Read<T extends Options> = ReturnType<typeof parseArgs<Config<T>>>;

/**
 * Reads what follows a command's word.
 * @throws Misuse for an option the command does not have, or one without its value
 */
export function readArguments<T extends Options>(args: readonly string[], options: T): Read<T> {
  const config: Config<T> = { args: [...args], options, allowPositionals: true, strict: true };
  try {
    return parseArgs(config);
  } catch (error) {
    throw new Misuse(whatIsWrong(options, error));
  }
}

function whatIsWrong(options: Options, error: unknown): string {
  const [code, message] =
    error instanceof Error && 'code' in error ? [error.code, error.message] : [];
  const option = /--?[\w-]+/.exec(message ?? '')?.[0] ?? 'this option';
  if (code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION') {
    const known = Object.keys(options).map((name) => `--${name}`);
    const there = known.length === 0 ? 'There are none.' : `The options are ${known.join(', ')}.`;
    return `There is no option ${option} here. ${there}`;
  }
  return options[option.slice(2)]?.type === 'boolean'
    ? `${option} takes no value.`
    : `${option} needs a value after it.`;
}
