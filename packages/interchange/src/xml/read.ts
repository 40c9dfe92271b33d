import { SaxesParser, type SaxesTagPlain } from 'saxes';
import { Unreadable } from '../unreadable.ts';

/** What an element says of itself, by names as they are written. */
export type Said = Readonly<Record<string, string>>;

/** Who reads a part, one thing after the other. Names come without what a file puts before them (`x:row`). */
export interface Listener {
  open?(name: string, said: Said): void;
  text?(text: string): void;
  close?(name: string): void;
}

const DEEPEST = 100;
const PIECE = 64 * 1024;

/**
 * Reads a part of a file. Types and entities of its own are refused: none of the formats has any, and they make a few
 * letters into millions.
 * @param part what it is called, for the sentence
 * @throws Unreadable
 */
export function readXml(bytes: Uint8Array, part: string, listener: Listener): void {
  const text = decoded(bytes, part);
  const parser = new SaxesParser({ xmlns: false, position: false });
  let depth = 0;
  const refuse = (why: string): never => {
    throw new Unreadable(`The file is damaged or no spreadsheet: its part "${part}" ${why}.`);
  };
  parser.on('error', () => refuse('is not written as it should be'));
  parser.on('doctype', () => {
    throw new Unreadable(
      `The file's part "${part}" declares types of its own, which no spreadsheet does; the file is not opened.`,
    );
  });
  parser.on('opentag', (tag: SaxesTagPlain) => {
    depth += 1;
    if (depth > DEEPEST) refuse('is nested too deep');
    listener.open?.(local(tag.name), tag.attributes);
  });
  if (listener.text !== undefined) {
    parser.on('text', (piece) => listener.text?.(piece));
    parser.on('cdata', (piece) => listener.text?.(piece));
  }
  parser.on('closetag', (tag: SaxesTagPlain) => {
    depth -= 1;
    listener.close?.(local(tag.name));
  });
  for (let at = 0; at < text.length; at += PIECE) parser.write(text.slice(at, at + PIECE));
  parser.close();
}

const local = (name: string): string => {
  const colon = name.indexOf(':');
  return colon < 0 ? name : name.slice(colon + 1);
};

/** Parts are UTF-8 or UTF-16 (ECMA-376 part 2, 10.1.2.1); which, their first letters tell. */
function decoded(bytes: Uint8Array, part: string): string {
  const [first, second] = bytes;
  const kind =
    (first === 0xff && second === 0xfe) || (first === 0x3c && second === 0)
      ? 'utf-16le'
      : (first === 0xfe && second === 0xff) || (first === 0 && second === 0x3c)
        ? 'utf-16be'
        : 'utf-8';
  try {
    return new TextDecoder(kind, { fatal: true }).decode(bytes);
  } catch {
    throw new Unreadable(
      `The file is damaged or no spreadsheet: its part "${part}" holds letters that cannot be read.`,
    );
  }
}
