import { readSettings, WrongSetting } from './running/settings.ts';
import { startClub } from './running/start.ts';

/** What the command line prints to. */
export interface Out {
  readonly say: (line: string) => void;
  readonly complain: (line: string) => void;
}

/**
 * Carries out one command of the club: `start`, which goes on until it is told to stop.
 * @param appFolder of the built app
 * @returns the exit code
 */
export async function runClub(
  args: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
  appFolder: string,
  out: Out,
): Promise<number> {
  const [command = 'start'] = args;
  try {
    const settings = readSettings(env);
    if (command === 'start') return await start(settings, appFolder, out);
    out.complain(`There is no command "${command}". There is: start.`);
    return 2;
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
