import type { Io } from './io.ts';

/**
 * What makes a terminal do something instead of showing a letter: control characters (a tab only moves
 * on), line separators, what turns the direction of letters, and halves of letters.
 */
const ACTING = /(?!\t)\p{Cc}|[\u2028-\u202e\u2066-\u2069]|\p{Cs}/gu;
const SHORT: Readonly<Record<string, string>> = { '\n': '\\n', '\r': '\\r' };

/**
 * A line with such characters written out, as JSON writes them: a name in a workbook must not clear
 * the screen, nor look like another line. Within JSON it means the same as before.
 */
export function visible(line: string): string {
  return line.replace(
    ACTING,
    (one) => SHORT[one] ?? `\\u${one.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** Everything that is printed goes through here, to a terminal and into a pipe alike. */
export const visibly = (io: Io): Io => ({
  ...io,
  out: (line) => io.out(visible(line)),
  err: (line) => io.err(visible(line)),
});

/** Prints a value as JSON, a line at a time. */
export function printJson(io: Io, value: unknown): void {
  for (const line of JSON.stringify(value, null, 2).split('\n')) io.out(line);
}
