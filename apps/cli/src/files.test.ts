import { execFileSync } from 'node:child_process';
import {
  linkSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { open } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { nodeIo, run } from './main.ts';
import { benchText } from './testing/fake-io.ts';

let folder = '';
let book = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfbook-files-'));
  book = join(folder, 'Book.json');
  writeFileSync(book, benchText);
});
afterEach(() => rmSync(folder, { recursive: true }));

async function call(...argv: string[]) {
  const [out, err]: [string[], string[]] = [[], []];
  const code = await run(argv, {
    ...nodeIo(),
    out: (line) => out.push(line),
    err: (line) => err.push(line),
  });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

const exportTo = (path: string, ...more: string[]) =>
  call('export', book, '--to', 'json', '--out', path, ...more);

describe('what is read is never written over', () => {
  const ways: [string, () => string][] = [
    ['by its own path', () => book],
    [
      'by a way around',
      () => join(folder, '..', relative(join(folder, '..'), folder), 'Book.json'),
    ],
    [
      'through a link',
      () => {
        symlinkSync(book, join(folder, 'link.json'));
        return join(folder, 'link.json');
      },
    ],
    [
      'under another name',
      () => {
        linkSync(book, join(folder, 'same.json'));
        return join(folder, 'same.json');
      },
    ],
    [
      'through a linked folder',
      () => {
        symlinkSync(folder, join(folder, 'again'));
        return join(folder, 'again', 'Book.json');
      },
    ],
  ];
  it.each(ways)('%s, not even by force', async (_, way) => {
    const path = way();
    for (const force of [[], ['--force']]) {
      expect(await exportTo(path, ...force)).toEqual({
        code: 2,
        out: '',
        err: `${path} is the file that was read; what was read is never written over. Give --out another path.`,
      });
    }
    expect(readFileSync(book, 'utf8')).toBe(benchText);
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });
});

describe('where an export goes', () => {
  it('is a new file, and one that is there only by force', async () => {
    const path = join(folder, 'out.json');
    expect(await exportTo(path)).toMatchObject({ code: 0, err: '' });
    const first = readFileSync(path, 'utf8');
    writeFileSync(path, 'mine');
    expect(await exportTo(path)).toEqual({
      code: 2,
      out: '',
      err: `${path} is there already. Add --force to write over it, or give --out another path.`,
    });
    expect(readFileSync(path, 'utf8')).toBe('mine');
    expect(await exportTo(path, '--force')).toMatchObject({ code: 0, err: '' });
    expect(readFileSync(path, 'utf8')).toBe(first);
    expect(readdirSync(folder).sort()).toEqual(['Book.json', 'out.json']);
  });

  it('follows a link to another file, which stays a link, and keeps who may read it', async () => {
    const [real, link] = [join(folder, 'real.json'), join(folder, 'link.json')];
    writeFileSync(real, 'mine', { mode: 0o600 });
    symlinkSync(real, link);
    expect(await exportTo(link)).toMatchObject({ code: 2 });
    expect(await exportTo(link, '--force')).toMatchObject({ code: 0 });
    expect(readFileSync(real, 'utf8')).toContain('An invented bench');
    expect(statSync(real).mode & 0o777).toBe(0o600);
    expect(readFileSync(link, 'utf8')).toBe(readFileSync(real, 'utf8'));
  });

  it.each([
    ['a folder', () => folder, /is a folder/],
    ['a folder that is not there', () => join(folder, 'none', 'a.json'), /no such folder/],
    ['a file in place of a folder', () => join(book, 'a.json'), /no such folder/],
    [
      'a link that leads nowhere',
      () => {
        symlinkSync(join(folder, 'none'), join(folder, 'gone'));
        return join(folder, 'gone');
      },
      /leads nowhere/,
    ],
    [
      'links in a circle',
      () => {
        symlinkSync(join(folder, 'b'), join(folder, 'a'));
        symlinkSync(join(folder, 'a'), join(folder, 'b'));
        return join(folder, 'a');
      },
      /in a circle/,
    ],
    ['a device', () => '/dev/null', /a device, not a file/],
    [
      'a pipe',
      () => {
        execFileSync('mkfifo', [join(folder, 'pipe')]);
        return join(folder, 'pipe');
      },
      /a pipe, not a file/,
    ],
    ['a path too long', () => join(folder, 'x'.repeat(300)), /too long/],
    ['no path', () => '', /--out says where/],
  ])('%s is refused with a sentence', async (_, path, says) => {
    const ended = await exportTo(path(), '--force');
    expect(ended).toMatchObject({ code: 2, out: '' });
    expect(ended.err).toMatch(says);
    expect(readFileSync(book, 'utf8')).toBe(benchText);
  });

  it('leaves what was there when the disk is full half-way', async () => {
    const out = join(folder, 'old.json');
    writeFileSync(out, 'mine');
    const file = await open(book);
    const handle = Object.getPrototypeOf(file) as typeof file;
    await file.close();
    const full = vi.spyOn(handle, 'writeFile').mockImplementation(async function (
      this: typeof file,
    ) {
      await this.write('half of it');
      throw Object.assign(new Error('no room'), { code: 'ENOSPC' });
    });
    try {
      expect(await exportTo(out, '--force')).toMatchObject({
        code: 2,
        err: `${out} cannot be written: the disk is full.`,
      });
      expect(full).toHaveBeenCalledOnce();
    } finally {
      full.mockRestore();
    }
    expect(readFileSync(out, 'utf8')).toBe('mine');
    expect(readdirSync(folder).sort()).toEqual(['Book.json', 'old.json']);
  });
});

describe('what is no file is not waited for', () => {
  it('a pipe that nobody writes to', async () => {
    const pipe = join(folder, 'pipe');
    execFileSync('mkfifo', [pipe]);
    expect(await call('run', pipe)).toEqual({
      code: 2,
      out: '',
      err: `${pipe} is a pipe, not a file.`,
    });
    symlinkSync(pipe, join(folder, 'link'));
    expect(await call('check', join(folder, 'link'))).toMatchObject({ code: 2 });
  });

  it('a device and a socket', async () => {
    expect(await call('run', '/dev/zero')).toMatchObject({
      code: 2,
      err: '/dev/zero is a device, not a file.',
    });
    const socket = join(folder, 'socket');
    const server = createServer();
    await new Promise<void>((ready) => server.listen(socket, ready));
    expect(await call('run', socket)).toMatchObject({
      code: 2,
      err: `${socket} is a socket, not a file.`,
    });
    await new Promise((closed) => server.close(closed));
  });
});
