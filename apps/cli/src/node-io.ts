import { randomBytes } from 'node:crypto';
import { constants } from 'node:fs';
import {
  chmod,
  type FileHandle,
  lstat,
  open,
  realpath,
  rename,
  stat,
  unlink,
} from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { dirname, join } from 'node:path';
import { FAULTS } from '@kerfbook/workbook';
import { importInThread } from './import-thread.ts';
import type { FileBytes, FileText, Io } from './io.ts';
import { startSweepThread } from './sweep-thread.ts';

const MB = 1024 * 1024;
/** A workbook has at most 20 MB of characters, of at most four bytes each: more is not read at all. */
const CERTAINLY_TOO_LARGE = 80 * MB;

/** Files that were read, by device and number: the same under any name, through any link. */
type ReadFiles = Set<string>;

/** The terminal and the disk, for one call of the command line. */
export function nodeIo(): Io {
  const readFiles: ReadFiles = new Set();
  return {
    out: (line) => process.stdout.write(`${line}\n`),
    err: (line) => process.stderr.write(`${line}\n`),
    read: (path) => readText(path, readFiles),
    readBytes: (path) => readWhole(path, readFiles),
    write: (path, text, force) => writeText(path, text, { force, readFiles }),
    setting: (name) => process.env[name],
    now: () => new Date(),
    startSweepThread,
    importFile: (asked) => importInThread(asked),
    threads: availableParallelism(),
    whenInterrupted: (stop) => {
      process.once('SIGINT', stop);
      return () => process.off('SIGINT', stop);
    },
  };
}

interface Known {
  readonly dev: bigint;
  readonly ino: bigint;
}

const keyOf = ({ dev, ino }: Known): string => `${dev} ${ino}`;

async function readText(path: string, readFiles: ReadFiles): Promise<FileText> {
  const read = await readWhole(path, readFiles);
  return read.ok ? decode(path, read.bytes) : read;
}

async function readWhole(path: string, readFiles: ReadFiles): Promise<FileBytes> {
  let file: FileHandle | undefined;
  try {
    const found = await stat(path, { bigint: true });
    if (found.isDirectory()) return no(`${path} is a folder; give the path of a workbook.`);
    if (!found.isFile()) return no(`${path} is ${kindOf(found)}, not a file.`);
    // Whatever takes its place meanwhile must not be waited for either.
    file = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const opened = await file.stat({ bigint: true });
    if (!opened.isFile()) return no(`${path} is ${kindOf(opened)}, not a file.`);
    readFiles.add(keyOf(opened));
    if (opened.size > CERTAINLY_TOO_LARGE) {
      return no(`${path}: ${FAULTS.D5(`${Math.ceil(Number(opened.size) / MB)} MB`)}`);
    }
    return { ok: true, bytes: await file.readFile() };
  } catch (error) {
    return no(`${path} cannot be read: ${reason(error, READ_REASONS)}.`);
  } finally {
    await file?.close();
  }
}

function kindOf(found: { isFIFO(): boolean; isSocket(): boolean }): string {
  if (found.isFIFO()) return 'a pipe';
  return found.isSocket() ? 'a socket' : 'a device';
}

function decode(path: string, bytes: Uint8Array): FileText {
  try {
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return no(`${path} is not a workbook: it is not written in UTF-8.`);
  }
}

async function writeText(
  path: string,
  text: string | Uint8Array,
  { force, readFiles }: { readonly force: boolean; readonly readFiles: ReadFiles },
): Promise<string | undefined> {
  try {
    const there = await lstat(path).catch(absent);
    const found = there && (await stat(path, { bigint: true }).catch(absent));
    if (found?.isDirectory()) return `${path} is a folder; give --out the path of a file.`;
    if (found !== undefined && readFiles.has(keyOf(found))) {
      return `${path} is the file that was read; what was read is never written over. Give --out another path.`;
    }
    if (found !== undefined && !found.isFile()) {
      return `${path} is ${kindOf(found)}, not a file; give --out the path of a file.`;
    }
    if (there !== undefined && found === undefined) {
      return `${path} is a link that leads nowhere; give --out another path.`;
    }
    if (there !== undefined && !force) {
      return `${path} is there already. Add --force to write over it, or give --out another path.`;
    }
    await writeWhole(found === undefined ? path : await realpath(path), text, Number(found?.mode));
    return undefined;
  } catch (error) {
    return `${path} cannot be written: ${reason(error, WRITE_REASONS)}.`;
  }
}

function absent(error: unknown): undefined {
  if (codeOf(error) === 'ENOENT') return undefined;
  throw error;
}

/** Written beside it and then put in its place, so that a full disk leaves what was there. */
async function writeWhole(path: string, text: string | Uint8Array, mode: number): Promise<void> {
  const beside = join(dirname(path), `.kerfbook-${randomBytes(6).toString('hex')}.part`);
  const file = await open(beside, 'wx');
  try {
    try {
      await file.writeFile(text);
      await file.sync();
    } finally {
      await file.close();
    }
    if (!Number.isNaN(mode)) await chmod(beside, mode & 0o777);
    await rename(beside, path);
  } catch (error) {
    await unlink(beside).catch(() => undefined);
    throw error;
  }
}

const READ_REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EACCES: 'you may not read it',
  EPERM: 'you may not read it',
  ENAMETOOLONG: 'the path is too long',
  ELOOP: 'its links go round in a circle',
};

const WRITE_REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder',
  ENOTDIR: 'there is no such folder',
  EISDIR: 'it is a folder',
  EACCES: 'you may not write there',
  EPERM: 'you may not write there',
  EROFS: 'you may not write there',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
  EFBIG: 'the system allows no file as large',
  ENAMETOOLONG: 'the path is too long',
  ELOOP: 'its links go round in a circle',
};

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : '';

function reason(error: unknown, reasons: Readonly<Record<string, string>>): string {
  const code = codeOf(error);
  return reasons[code] ?? `the system says ${code || String(error)}`;
}

function no(says: string): { readonly ok: false; readonly says: string } {
  return { ok: false, says };
}
