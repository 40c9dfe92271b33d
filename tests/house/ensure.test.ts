import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import {
  ensureBrowser,
  ensureInstalled,
  NotReady,
  runToEnd,
} from '../../apps/cli/scripts/ensure.mjs';

let folder = '';
const path = (name: string) => join(folder, name);
const put = (name: string, text: string): void => {
  mkdirSync(dirname(path(name)), { recursive: true });
  writeFileSync(path(name), text);
};
/** A program that stands in for one of the machine's. */
const program = (name: string, script: string): void => {
  put(name, `#!/bin/sh\n${script}\n`);
  chmodSync(path(name), 0o755);
};

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfbook-ensure-'));
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true });
});

describe('installing', () => {
  const lockOf = (version: string) =>
    JSON.stringify({
      packages: {
        '': { name: 'kerfbook' },
        'node_modules/zod': { version, integrity: `sha512-${version}` },
        'node_modules/for-another-machine': { version: '1.0.0', optional: true },
      },
    });
  const installedOf = (version: string) =>
    JSON.stringify({
      packages: { 'node_modules/zod': { version, integrity: `sha512-${version}` } },
    });
  const calls = () => (existsSync(path('calls')) ? readFileSync(path('calls'), 'utf8').trim() : '');

  beforeEach(() => {
    put('package-lock.json', lockOf('4.0.0'));
    program('bin/npm', `echo "$@" >> "${path('calls')}"; exit \${NPM_ENDS_WITH:-0}`);
    vi.stubEnv('PATH', `${path('bin')}${delimiter}${process.env.PATH}`);
  });

  it('runs npm ci where nothing is installed, and not again', async () => {
    await ensureInstalled(folder);
    await ensureInstalled(folder);
    expect(calls()).toMatch(/^ci --include=dev[^\n]*$/);
  });

  it('runs it again when the lock file changed', async () => {
    await ensureInstalled(folder);
    put('package-lock.json', lockOf('4.0.1'));
    await ensureInstalled(folder);
    expect(calls().split('\n')).toHaveLength(2);
  });

  it('leaves alone what somebody installed by hand, and what only another machine needs', async () => {
    put('node_modules/.package-lock.json', installedOf('4.0.0'));
    await ensureInstalled(folder);
    expect(calls()).toBe('');
  });

  it('does not take another version for installed', async () => {
    put('node_modules/.package-lock.json', installedOf('3.9.9'));
    await ensureInstalled(folder);
    expect(calls()).toMatch(/^ci/);
  });

  it('names the command when npm fails, and tries again the next time', async () => {
    vi.stubEnv('NPM_ENDS_WITH', '1');
    await expect(ensureInstalled(folder)).rejects.toThrow(/Run "npm ci"/);
    await expect(ensureInstalled(folder)).rejects.toThrow(NotReady);
    expect(calls().split('\n')).toHaveLength(2);
  });
});

describe('finding a browser', () => {
  const machine = { env: { PATH: '' }, elsewhere: [], mayInstall: false };

  it('takes the one that is asked for', async () => {
    put('my-browser', '');
    const env = { KERFBOOK_CHROMIUM: path('my-browser') };
    expect(await ensureBrowser({ ...machine, env })).toBe(path('my-browser'));
  });

  it('says so when the one that is asked for is not there', async () => {
    const env = { KERFBOOK_CHROMIUM: path('none') };
    await expect(ensureBrowser({ ...machine, env })).rejects.toThrow(/KERFBOOK_CHROMIUM points to/);
  });

  it('looks along the path, then elsewhere', async () => {
    put('apps/chrome', '');
    expect(await ensureBrowser({ ...machine, elsewhere: [path('apps/chrome')] })).toBe(
      path('apps/chrome'),
    );
    put('bin/chromium-browser', '');
    const env = { PATH: `${path('none')}${delimiter}${path('bin')}` };
    expect(await ensureBrowser({ ...machine, env, elsewhere: [path('apps/chrome')] })).toBe(
      path('bin/chromium-browser'),
    );
  });

  it('names the command where there is none and it may not install', async () => {
    await expect(ensureBrowser(machine)).rejects.toThrow(/sudo apt-get install -y chromium/);
  });

  it('installs one where it may', async () => {
    program('bin/apt-get', `[ "$1" = update ] || : > "${path('bin')}/chromium"`);
    program('bin/sh', 'exec /bin/sh "$@"');
    const env = { PATH: path('bin'), KERFBOOK_CHROMIUM: '' };
    const found = await ensureBrowser({ ...machine, env, mayInstall: true });
    expect(found).toBe(path('bin/chromium'));
  });

  it('names the command when installing came to nothing', async () => {
    program('bin/apt-get', 'exit 100');
    program('bin/sh', 'exec /bin/sh "$@"');
    const env = { PATH: path('bin') };
    await expect(ensureBrowser({ ...machine, env, mayInstall: true })).rejects.toThrow(
      /Run "apt-get update && apt-get install -y chromium"/,
    );
  });
});

describe('running a program', () => {
  it('gives its exit code, and 127 where there is no such program', async () => {
    program('three', 'exit 3');
    expect(await runToEnd(path('three'), [], { cwd: folder })).toBe(3);
    expect(await runToEnd(path('none'), [], { cwd: folder })).toBe(127);
  });

  it('shows what it held back when the program fails, and nothing when it does not', async () => {
    const shown = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    program('good', 'echo fine');
    program('bad', 'echo out; echo broken >&2; exit 1');
    await runToEnd(path('good'), [], { cwd: folder, output: 'if-it-fails' });
    expect(shown).not.toHaveBeenCalled();
    await runToEnd(path('bad'), [], { cwd: folder, output: 'if-it-fails' });
    const text = shown.mock.calls.map(([chunk]) => String(chunk)).join('');
    shown.mockRestore();
    expect(text).toContain('out');
    expect(text).toContain('broken');
  });
});
