import { createHash, type Hash } from 'node:crypto';
import { BackupRefused } from './format.ts';

/** Longer than a row with the largest workbook in it can be. */
const LONGEST = 64 * 1024 * 1024;

/** A line of a backup, read. */
export interface Line {
  readonly value: Readonly<Record<string, unknown>>;
  /** Its place, from 1. */
  readonly number: number;
  /** SHA-256 over all bytes before it. */
  readonly before: string;
}

/** That a backup is not as it was written. */
export function damaged(number: number, cause?: unknown): BackupRefused {
  return new BackupRefused(
    `The backup is damaged at line ${number}. Nothing was restored; take another backup, or copy this one anew from where it was kept.`,
    { cause },
  );
}

/**
 * Reads a backup line by line, with one of them in memory.
 * @throws BackupRefused where a line cannot be read or the last one has no end
 */
export async function* linesIn(stream: AsyncIterable<Uint8Array | string>): AsyncGenerator<Line> {
  const hash = createHash('sha256');
  let number = 0;
  let parts: Buffer[] = [];
  let length = 0;
  for await (const chunk of stream) {
    let rest = typeof chunk === 'string' ? Buffer.from(chunk) : Buffer.from(chunk);
    for (let end = rest.indexOf(10); end !== -1; end = rest.indexOf(10)) {
      parts.push(rest.subarray(0, end + 1));
      rest = rest.subarray(end + 1);
      number += 1;
      const bytes = Buffer.concat(parts);
      parts = [];
      length = 0;
      yield lineOf(bytes, number, hash);
    }
    if (rest.length > 0) parts.push(rest);
    length += rest.length;
    if (length > LONGEST) throw damaged(number + 1);
  }
  if (parts.length > 0) throw cutOff();
}

/** That a backup has no end. */
export function cutOff(): BackupRefused {
  return new BackupRefused(
    'The backup ends before its last line, so part of it is missing. Nothing was restored; take another backup, or copy this one anew from where it was kept.',
  );
}

function lineOf(bytes: Buffer, number: number, hash: Hash): Line {
  const before = hash.copy().digest('hex');
  hash.update(bytes);
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch (error) {
    throw number === 1 ? noBackup(error) : damaged(number, error);
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw number === 1 ? noBackup() : damaged(number);
  }
  return { value: value as Record<string, unknown>, number, before };
}

/** That a file is something else. */
export function noBackup(cause?: unknown): BackupRefused {
  return new BackupRefused(
    'This is no backup of a club. Choose a file that `kerfbook-club backup` wrote; nothing was restored.',
    { cause },
  );
}
