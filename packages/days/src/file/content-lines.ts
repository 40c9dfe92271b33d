/** Octets of a line of iCalendar, without its end (RFC 5545, 3.1). */
const LONGEST = 75;

/** A text as a property of type TEXT has it (RFC 5545, 3.3.11); control characters are in none. */
export const escaped = (text: string): string =>
  text
    .replaceAll('\\', '\\\\')
    .replaceAll(';', '\\;')
    .replaceAll(',', '\\,')
    .replaceAll(/\r\n|\r|\n/g, '\\n')
    .replaceAll(/(?!\t)\p{Cc}/gu, '');

/** What an escaped text says. */
export const unescaped = (text: string): string =>
  text.replaceAll(/\\(.)/g, (_, letter: string) =>
    letter === 'n' || letter === 'N' ? '\n' : letter,
  );

/** Octets of a character in UTF-8. */
function octets(character: string): number {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}

/** Content lines as a file has them: those that are too long go on behind a space, none breaks a character. */
export function folded(lines: readonly string[]): string {
  return lines.map((line) => `${foldedLine(line)}\r\n`).join('');
}

function foldedLine(line: string): string {
  let written = '';
  let long = 0;
  for (const character of line) {
    const more = octets(character);
    if (long + more > LONGEST) {
      written += '\r\n ';
      long = 1;
    }
    // Half of a pair is no character; a file in UTF-8 cannot hold it.
    written += /\p{Cs}/u.test(character) ? '\ufffd' : character;
    long += more;
  }
  return written;
}

/** Content lines of a file, those that were folded put together again. */
export const unfolded = (text: string): readonly string[] =>
  text.replaceAll(/\r?\n[ \t]/g, '').split(/\r?\n/);
