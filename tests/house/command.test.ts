import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';

const bin = join(import.meta.dirname, '../../apps/cli/bin/kerfbook.mjs');
const start = promisify(execFile);

interface Ended {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Starts a program and waits for its end, whatever that is. */
async function end(command: string, args: readonly string[]): Promise<Ended> {
  try {
    return { code: 0, ...(await start(command, [...args])) };
  } catch (error) {
    return error as Ended;
  }
}

const kerfbook = (...args: string[]) => end(process.execPath, [bin, ...args]);

describe('the built command', () => {
  it('puts the result on standard output and nothing else', async () => {
    expect(await kerfbook('eval', '=APRON_LENGTH(84, 6, 3.5)')).toMatchObject({
      code: 0,
      stdout: '65 in\n',
      stderr: '',
    });
  });

  it('puts a complaint on standard error and ends with 1', async () => {
    expect(await kerfbook('eval', '=1/0')).toMatchObject({
      code: 1,
      stdout: '#DIV/0!\n',
      stderr: expect.stringContaining('divides by zero'),
    });
  });

  it('ends with 2 for a file that is not there', async () => {
    expect(await kerfbook('run', 'no-such-file.json', '--json')).toMatchObject({
      code: 2,
      stdout: '',
      stderr: 'no-such-file.json cannot be read: there is no such file.\n',
    });
  });

  it('is not troubled by a reader that stops reading', async () => {
    const line = `"${process.execPath}" "${bin}" functions --json | head -n 1`;
    expect(await end('bash', ['-o', 'pipefail', '-c', line])).toMatchObject({
      code: 0,
      stdout: '[\n',
      stderr: '',
    });
  });
});
