import { tokenize } from '@borgar/fx';

/** A piece of a formula's text. */
export interface TextToken {
  readonly type: string;
  readonly value: string;
}

/** How many texts are remembered: whoever handles a formula asks for the same one again at once. */
const REMEMBERED = 64;
/** Longer texts are rare, and not worth their room. */
const LONGEST = 4_000;

const read = new Map<string, readonly TextToken[]>();

/**
 * The pieces of a formula's text, nothing left out. A text that is asked for again while others are
 * handled is not read again: guarding, keeping, telling the engine and watching all ask for it.
 */
export function tokensOfText(text: string): readonly TextToken[] {
  const known = read.get(text);
  if (known !== undefined) return known;
  const tokens = tokenize(text).map(({ type, value }) => Object.freeze({ type, value }));
  if (text.length > LONGEST) return tokens;
  if (read.size >= REMEMBERED) {
    const [oldest] = read.keys();
    if (oldest !== undefined) read.delete(oldest);
  }
  read.set(text, tokens);
  return tokens;
}
