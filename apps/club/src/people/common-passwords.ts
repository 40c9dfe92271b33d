import { dictionary } from '@zxcvbn-ts/language-common';

/** Passwords that were found most often where lists of them came out, as far as they are long enough to be taken. */
export const COMMON: ReadonlySet<string> = new Set(
  Object.values(dictionary)
    .flatMap((words) => words.map(String))
    .filter((word) => word.length >= 8)
    .map((word) => word.normalize('NFKC').toLowerCase()),
);
