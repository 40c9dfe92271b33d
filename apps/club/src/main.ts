import { resolve } from 'node:path';
import { COMMANDS } from './running/commands.ts';
import { readSettings, WrongSetting } from './running/settings.ts';
import { startClub } from './running/start.ts';

/** What the command line prints to. */
export interface Out {
  readonly say: (line: string) => void;
  readonly complain: (line: string) => void;
}

/** What can be typed, each with what has to be named after it. */
const THERE_IS = ['start', ...Object.keys(COMMANDS).map(usage)].join(', ');

/**
 * Carries out one command of the club: `start`, which goes on until it is told to stop, or one of those that do one thing
 * and end.
 * @param appFolder of the built app
 * @returns the exit code: 2 where what was typed or set cannot be, 1 where it did not work
 */
export async function runClub(
  args: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
  appFolder: string,
  out: Out,
): Promise<number> {
  const [command = 'start', ...named] = args;
  try {
    const settings = readSettings(env);
    if (command === 'start' && named.length === 0) return await start(settings, appFolder, out);
    const { takes, does } = (Object.hasOwn(COMMANDS, command) && COMMANDS[command]) || {};
    if (does === undefined) {
      out.complain(
        command === 'start'
          ? '"start" takes nothing after it.'
          : `There is no command "${command}". There is: ${THERE_IS}.`,
      );
      return 2;
    }
    if (named.length !== (takes === undefined ? 0 : 1) || named[0] === '') {
      out.complain(
        takes === undefined
          ? `"${command}" takes nothing after it.`
          : `"${command}" takes one name after it: npm run club -- ${usage(command)}`,
      );
      return 2;
    }
    // Through npm a command is run in the project's own folder, wherever it was typed.
    const path = resolve(env.INIT_CWD ?? process.cwd(), named[0] ?? '');
    for (const line of await does(settings, path)) out.say(line);
    return 0;
  } catch (error) {
    if (error instanceof WrongSetting) {
      out.complain(error.message);
      return 2;
    }
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'EADDRINUSE') {
      out.complain('The port is taken. Set PORT to a free one, as in "PORT=8080 npm run club".');
      return 1;
    }
    out.complain(message);
    return 1;
  }
}

function usage(command: string): string {
  const takes = COMMANDS[command]?.takes;
  return takes === undefined ? command : `${command} ${takes}`;
}

async function start(
  settings: ReturnType<typeof readSettings>,
  appFolder: string,
  out: Out,
): Promise<number> {
  const running = await startClub(settings, appFolder);
  for (const line of running.says) out.say(line);
  out.say('Ctrl+C stops it.');
  await new Promise<void>((done) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => done());
  });
  await running.close();
  return 0;
}
