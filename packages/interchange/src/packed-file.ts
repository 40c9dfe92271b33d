import { isOds, readOds } from './ods/read.ts';
import type { Hears } from './onward.ts';
import type { ComingIn } from './taking/coming-in.ts';
import { Unreadable } from './unreadable.ts';
import { readXlsx } from './xlsx/read.ts';
import { Archive } from './zip/read.ts';

/** Begins a file of the former kind, and one that is locked with a password (MS-CFB, 2.2). */
const FORMER = [0xd0, 0xcf, 0x11, 0xe0] as const;
const ZIP = [0x50, 0x4b] as const;

/**
 * Reads a file that is an archive of parts: xlsx or ods, by what is in it, whatever it is called.
 * @throws Unreadable with the sentence
 */
export function readPackedFile(bytes: Uint8Array, onward?: Hears): ComingIn {
  if (FORMER.every((byte, at) => bytes[at] === byte)) {
    throw new Unreadable(
      'The file is locked with a password, or of the former kind xls. Save it as xlsx without a password, and open that.',
    );
  }
  if (!ZIP.every((byte, at) => bytes[at] === byte)) {
    throw new Unreadable('The file is no xlsx or ods file: it does not begin like one.');
  }
  const archive = new Archive(bytes);
  return isOds(archive) ? readOds(archive, onward) : readXlsx(archive, onward);
}
