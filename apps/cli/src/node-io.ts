import { readFile, stat, writeFile } from 'node:fs/promises';
import { FAULTS } from '@kerfbook/workbook';
import type { FileText, Io } from './io.ts';

const MB = 1024 * 1024;
/** A workbook has at most 20 MB of characters, of at most four bytes each: more is not read at all. */
const CERTAINLY_TOO_LARGE = 80 * MB;

/** The terminal and the disk. */
export const nodeIo: Io = {
  out: (line) => process.stdout.write(`${line}\n`),
  err: (line) => process.stderr.write(`${line}\n`),
  read: readText,
  write: writeText,
};

async function readText(path: string): Promise<FileText> {
  try {
    const found = await stat(path);
    if (found.isDirectory()) return no(`${path} is a folder; give the path of a workbook.`);
    if (found.isCharacterDevice()) return no(`${path} is a device, not a file.`);
    if (found.size > CERTAINLY_TOO_LARGE) {
      return no(`${path}: ${FAULTS.D5(`${Math.ceil(found.size / MB)} MB`)}`);
    }
    return decode(path, await readFile(path));
  } catch (error) {
    return no(whyUnread(path, error));
  }
}

function decode(path: string, bytes: Uint8Array): FileText {
  try {
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return no(`${path} is not a workbook: it is not written in UTF-8.`);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EACCES: 'you may not read it',
  EPERM: 'you may not read it',
  ENAMETOOLONG: 'the path is too long',
};

async function writeText(path: string, text: string): Promise<string | undefined> {
  try {
    await writeFile(path, text);
    return undefined;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    return `${path} cannot be written: ${WRITE_REASONS[code] ?? `the system says ${code || String(error)}`}.`;
  }
}

const WRITE_REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder',
  ENOTDIR: 'there is no such folder',
  EISDIR: 'it is a folder',
  EACCES: 'you may not write there',
  EPERM: 'you may not write there',
  EROFS: 'you may not write there',
  ENOSPC: 'the disk is full',
};

function whyUnread(path: string, error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return `${path} cannot be read: ${REASONS[code] ?? `the system says ${code || String(error)}`}.`;
}

function no(says: string): FileText {
  return { ok: false, says };
}
