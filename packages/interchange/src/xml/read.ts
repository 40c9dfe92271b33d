import { type SaxesOptions, SaxesParser, type SaxesTagPlain } from 'saxes';
import { Unreadable } from '../unreadable.ts';
import { Names } from './names.ts';

/** What an element says of itself, by names as they are written. */
export type Said = Readonly<Record<string, string>>;

/** Who reads a part, one thing after the other. */
export interface Listener {
  open?(name: string, said: Said): void;
  text?(text: string): void;
  close?(name: string): void;
  /** How much of the part is read, from 0 to 1. */
  onward?(share: number): void;
}

const MISWRITTEN = 'is not written as it should be';
const DEEPEST = 100;
const PIECE = 64 * 1024;

/** Addresses of the words that formats have, and what is put before them here. */
export type Words = ReadonlyMap<string, string>;

/**
 * Reads a part of a file, names without what the file puts before them (`x:row` is `row`). Types and entities of its
 * own are refused: none of the formats has any, and they make a few letters into millions.
 * @param part what it is called, for the sentence
 * @throws Unreadable
 */
export function readXml(bytes: Uint8Array, part: string, listener: Listener): void {
  const parser = new SaxesParser({ xmlns: false, position: false });
  const reading = new Reading(part, listener);
  parser.on('opentag', (tag: SaxesTagPlain) => reading.open(local(tag.name), tag.attributes));
  parser.on('closetag', (tag: SaxesTagPlain) => reading.close(local(tag.name)));
  reading.read(parser, bytes);
}

/**
 * The same, names with what is put before the words of each format here, whatever the file puts before them; those of
 * other formats without.
 * @throws Unreadable
 */
export function readXmlOf(words: Words, bytes: Uint8Array, part: string, listener: Listener): void {
  const parser = new SaxesParser({ xmlns: false, position: false });
  const reading = new Reading(part, listener);
  const names = new Names(words, () => reading.refuse(MISWRITTEN));
  parser.on('opentag', (tag: SaxesTagPlain) => {
    const { name, said } = names.begin(tag.name, tag.attributes);
    reading.open(name, said);
  });
  parser.on('closetag', (tag: SaxesTagPlain) => reading.close(names.end(tag.name)));
  reading.read(parser, bytes);
}

/**
 * What stands in elements of a name, one after the other, white space around it left out.
 * @param words as `readXmlOf` has them; without, names are read as `readXml` does
 * @throws Unreadable
 */
export function textOfElement(
  bytes: Uint8Array,
  part: string,
  element: string,
  words?: Words,
): string {
  let isIn = false;
  let text = '';
  const listener: Listener = {
    open: (name) => {
      isIn = name === element;
    },
    text: (piece) => {
      if (isIn) text += piece;
    },
    close: () => {
      isIn = false;
    },
  };
  if (words === undefined) readXml(bytes, part, listener);
  else readXmlOf(words, bytes, part, listener);
  return text.trim();
}

/** One part on its way to who listens. */
class Reading {
  readonly #part: string;
  readonly #listener: Listener;
  #depth = 0;

  constructor(part: string, listener: Listener) {
    this.#part = part;
    this.#listener = listener;
  }

  open(name: string, said: Said): void {
    this.#depth += 1;
    if (this.#depth > DEEPEST) this.refuse('is nested too deep');
    this.#listener.open?.(name, said);
  }

  close(name: string): void {
    this.#depth -= 1;
    this.#listener.close?.(name);
  }

  read<O extends SaxesOptions>(parser: SaxesParser<O>, bytes: Uint8Array): void {
    const text = decoded(bytes, this.#part);
    parser.on('error', () => this.refuse(MISWRITTEN));
    parser.on('doctype', () => {
      throw new Unreadable(
        `The file's part "${this.#part}" declares types of its own, which no spreadsheet does; the file is not opened.`,
      );
    });
    if (this.#listener.text !== undefined) {
      parser.on('text', (piece) => this.#listener.text?.(piece));
      parser.on('cdata', (piece) => this.#listener.text?.(piece));
    }
    for (let at = 0; at < text.length; at += PIECE) {
      parser.write(text.slice(at, at + PIECE));
      this.#listener.onward?.(Math.min(1, (at + PIECE) / text.length));
    }
    parser.close();
  }

  refuse(why: string): never {
    throw new Unreadable(`The file is damaged or no spreadsheet: its part "${this.#part}" ${why}.`);
  }
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
