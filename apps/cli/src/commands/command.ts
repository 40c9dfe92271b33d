import type { ExitCode, Io } from '../io.ts';

/** One word of the command line and what it does. */
export interface Command {
  readonly name: string;
  /** What to type, without `kerfbook`. */
  readonly usage: string;
  /** One line for the list of commands. */
  readonly does: string;
  /** @throws Misuse when it is called wrongly */
  run(args: readonly string[], io: Io): Promise<ExitCode>;
}
