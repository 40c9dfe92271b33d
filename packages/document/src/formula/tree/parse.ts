import type { BinarySign, ErrorWord, Node } from './nodes.ts';
import type { Token } from './tokens.ts';

const LEVELS: readonly (readonly string[])[] = [
  ['=', '<>', '<', '>', '<=', '>='],
  ['&'],
  ['+', '-'],
  ['*', '/'],
  ['^'],
];

const ERRORS: ReadonlySet<string> = new Set([
  '#DIV/0!',
  '#NAME?',
  '#VALUE!',
  '#NUM!',
  '#N/A',
  '#CYCLE!',
  '#REF!',
  '#SPILL!',
  '#ERROR!',
] satisfies ErrorWord[]);

/** Brackets, calls and signs within each other: more than the guard lets pass by far. */
const DEEPEST = 500;

/** Put before newer functions by some programs. */
const PREFIX = /^(?:_xlfn\.|_xlws\.)+/i;
const FUNCTION = /^[A-Za-z\u00C0-\u02AF][A-Za-z\u00C0-\u02AF0-9_.]*$/;
const NUMBER = /^-?(?:\.\d+|\d+(?:\.\d*)?)(?:[eE][+-]?\d+)?$/;
const TEXT = /^"(?:[^"]|"")*"$/;

class Unreadable extends Error {}

const isSpace = ({ type }: Token): boolean => type === 'whitespace' || type === 'newline';
/** What stands behind a reference is read by itself: an `=` there looks like the one in front. */
const isSign = ({ type }: Token): boolean => type === 'operator' || type === 'fx_prefix';

/**
 * What a formula says, read from its tokens with the `=` in front, spaces passed over: comparisons bind weakest, then `&`,
 * sums, products, powers; all from the left. A sign before a number binds stronger than a power, `%`
 * after it stronger still.
 *
 * @returns `undefined` where it says nothing
 */
export function parseTokens(tokens: readonly Token[]): Node | undefined {
  try {
    return new Parser(tokens).formula();
  } catch (error) {
    if (error instanceof Unreadable) return undefined;
    throw error;
  }
}

class Parser {
  readonly #tokens: readonly Token[];
  /** Those that are no spaces. */
  #pieces: readonly Token[];
  /** The same once some of them had to be changed. */
  #own: Token[] | undefined;
  #at = 0;
  #depth = 0;
  #inArray = false;

  constructor(tokens: readonly Token[]) {
    this.#tokens = tokens;
    this.#pieces = tokens.some(isSpace) ? tokens.filter((one) => !isSpace(one)) : tokens;
  }

  formula(): Node {
    if (this.#take()?.value !== '=') throw new Unreadable();
    const root = this.#expression(0);
    if (this.#at < this.#pieces.length) throw new Unreadable();
    return root;
  }

  #peek(): Token | undefined {
    return this.#pieces[this.#at];
  }

  #take(): Token | undefined {
    const piece = this.#peek();
    this.#at += 1;
    return piece;
  }

  #isSign(value: string | undefined): boolean {
    const piece = this.#peek();
    return piece !== undefined && piece.value === value && isSign(piece);
  }

  #skip(value: string): boolean {
    const is = this.#isSign(value);
    if (is) this.#at += 1;
    return is;
  }

  #demand(value: string): void {
    if (!this.#skip(value)) throw new Unreadable();
  }

  #within<T>(read: () => T): T {
    this.#depth += 1;
    if (this.#depth > DEEPEST) throw new Unreadable();
    const value = read();
    this.#depth -= 1;
    return value;
  }

  #expression(level: number): Node {
    const signs = LEVELS[level];
    if (signs === undefined) return this.#signed();
    let left = this.#expression(level + 1);
    for (;;) {
      const piece = this.#peek();
      // `1-2` may come as the numbers 1 and -2.
      if (piece?.type === 'number' && piece.value.startsWith('-') && level === 2) {
        left = { kind: 'joined', sign: '-', left, right: this.#subtrahend() };
        continue;
      }
      if (piece === undefined || !isSign(piece) || !signs.includes(piece.value)) return left;
      this.#at += 1;
      const right = this.#expression(level + 1);
      left = { kind: 'joined', sign: piece.value as BinarySign, left, right };
    }
  }

  /** The number after a sign that came as its own. */
  #subtrahend(): Node {
    const piece = this.#pieces[this.#at];
    if (piece === undefined) throw new Unreadable();
    if (this.#own === undefined) {
      this.#own = [...this.#pieces];
      this.#pieces = this.#own;
    }
    this.#own[this.#at] = { ...piece, value: piece.value.slice(1) };
    return this.#expression(3);
  }

  /** Signs before one part: in the order of the text, the last binds first. */
  #signed(): Node {
    const signs: ('+' | '-')[] = [];
    for (;;) {
      if (this.#skip('-')) signs.push('-');
      else if (this.#skip('+')) signs.push('+');
      else break;
      if (signs.length > DEEPEST) throw new Unreadable();
    }
    const piece = this.#peek();
    if (piece?.type === 'number' && piece.value.startsWith('-')) signs.push('-');
    const of = this.#percent();
    return signs.reduceRight<Node>((inner, sign) => ({ kind: 'sign', sign, of: inner }), of);
  }

  #percent(): Node {
    const of = this.#one();
    return this.#skip('%') ? { kind: 'sign', sign: '%', of } : of;
  }

  #one(): Node {
    const piece = this.#take();
    switch (piece?.type) {
      case 'number':
        return numberOf(piece);
      case 'string':
        return textOf(piece.value);
      case 'bool':
        return { kind: 'logical', value: piece.value.toUpperCase() === 'TRUE' };
      case 'error':
        return this.#error(piece);
      case 'kept':
        if (piece.reference === undefined) throw new Unreadable();
        return { kind: 'reference', to: piece.reference };
      case 'address':
        return { kind: 'lost', text: piece.value };
      case 'range_named':
        if (piece.value.includes('!')) throw new Unreadable();
        return { kind: 'name', name: piece.value };
      case 'func':
        return this.#call(piece.value);
      case 'operator':
      case 'fx_prefix':
        if (piece.value === '(') return this.#bracket();
        if (piece.value === '{') return this.#array();
        throw new Unreadable();
      default:
        throw new Unreadable();
    }
  }

  #error(piece: Token): Node {
    const word = piece.value.toUpperCase();
    // `#N/A/2` is one word to some readers.
    if (!ERRORS.has(word) || (word === '#N/A' && /^[A-Za-z0-9/?!]/.test(this.#behind(piece)))) {
      throw new Unreadable();
    }
    return { kind: 'error', word: word as ErrorWord };
  }

  /** The text that follows a piece, spaces among it. */
  #behind(piece: Token): string {
    return this.#tokens[this.#tokens.indexOf(piece) + 1]?.value ?? '';
  }

  #bracket(): Node {
    const of = this.#within(() => this.#expression(0));
    this.#demand(')');
    return { kind: 'bracket', of };
  }

  #call(written: string): Node {
    const name = written.replace(PREFIX, '');
    if (!FUNCTION.test(name)) throw new Unreadable();
    this.#demand('(');
    const args = this.#within(() => this.#arguments());
    return { kind: 'call', name: name.toUpperCase(), args };
  }

  #arguments(): readonly Node[] {
    const args: Node[] = [];
    for (;;) {
      const left = this.#isSign(',') || this.#isSign(')');
      args.push(left ? { kind: 'nothing' } : this.#expression(0));
      if (this.#skip(')')) return args.length === 1 && left ? [] : args;
      this.#demand(',');
    }
  }

  #array(): Node {
    if (this.#inArray) throw new Unreadable();
    this.#inArray = true;
    const rows: Node[][] = [[]];
    for (;;) {
      rows.at(-1)?.push(this.#within(() => this.#expression(0)));
      if (this.#skip('}')) break;
      if (this.#skip(';')) rows.push([]);
      else this.#demand(',');
    }
    this.#inArray = false;
    return { kind: 'array', rows };
  }
}

/** A number's own sign was taken for one of the signs before it. */
function numberOf({ value }: Token): Node {
  if (!NUMBER.test(value)) throw new Unreadable();
  return { kind: 'number', value: Number(value.replace(/^-/, '')) };
}

function textOf(written: string): Node {
  if (!TEXT.test(written)) throw new Unreadable();
  return { kind: 'text', value: written.slice(1, -1).replaceAll('""', '"') };
}
