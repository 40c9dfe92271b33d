import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { type Browser, chromium, type Page } from 'playwright-core';
import { ensureBrowser } from '../../../apps/cli/scripts/ensure.mjs';
import { CHROMIUM_ARGUMENTS } from '../../scripts/chromium.mjs';

/** A browser on a profile that outlives it, and that can be killed as a power cut kills it. */
export interface Killable {
  readonly page: Page;
  /** Ends all its processes at once; nothing is tidied up. Resolves when the first of them is gone. */
  kill(): Promise<void>;
}

/** Starts Chromium on a profile and opens a page in it. */
export async function startKillable(profile: string): Promise<Killable> {
  const told = join(profile, 'DevToolsActivePort');
  rmSync(told, { force: true });
  const process_ = spawn(
    await ensureBrowser(),
    [
      '--headless',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      '--no-first-run',
      '--window-size=1440,900',
      ...CHROMIUM_ARGUMENTS,
      'about:blank',
    ],
    // A group of its own: what it started is killed with it.
    { detached: true, stdio: 'ignore' },
  );
  const gone = new Promise<void>((resolve) => process_.once('exit', () => resolve()));
  const kill = async (): Promise<void> => {
    try {
      process.kill(-(process_.pid ?? 0), 'SIGKILL');
    } catch {
      // It is gone already.
    }
    await gone;
  };
  try {
    const browser = await connect(told);
    const context = browser.contexts()[0];
    const page = context?.pages()[0] ?? (await context?.newPage());
    if (page === undefined) throw new Error('the browser shows no page');
    return { page, kill };
  } catch (error) {
    await kill();
    throw error;
  }
}

async function connect(told: string): Promise<Browser> {
  for (let tries = 0; tries < 600; tries += 1) {
    const port = existsSync(told) ? readFileSync(told, 'utf8').split('\n')[0] : '';
    if (port !== undefined && port !== '') {
      return chromium.connectOverCDP(`http://127.0.0.1:${port}`);
    }
    await wait(25);
  }
  throw new Error('the browser did not say where it listens');
}
