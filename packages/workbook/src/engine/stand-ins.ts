import { isReference, nameKey, splitSheet, type Token } from '@kerfbook/document';

/** Begins every name that stands for a maker's word; a word that begins so has a stand-in too. */
const PREFIX = 'kerfbook_';
/** Words the engine reads as they are. It takes `offset_length` for its function OFFSET. */
const PLAIN = /^(?!kerfbook_|offset)[A-Za-z_][A-Za-z0-9_.]*$/i;
const PLAIN_SHEET = /^(?!offset)[A-Za-z_][A-Za-z0-9_]*$/i;
const STAND_IN = /kerfbook_[0-9a-f_]+/gi;

/**
 * The names of an engine that reads the letters of Western languages only: where a maker's word is
 * not one of them, the engine gets a stand-in, the same one for every spelling of the word. It is
 * never shown: what the engine says is put back into the maker's words.
 */
export class StandIns {
  readonly #words = new Map<string, string>();

  /** The word as the engine knows it. */
  of(word: string): string {
    if (PLAIN.test(word)) return word;
    const letters = [...nameKey(word)].map((letter) => (letter.codePointAt(0) ?? 0).toString(16));
    const stand = `${PREFIX}${letters.join('_')}`;
    this.#words.set(stand, word);
    return stand;
  }

  /** What the engine says, with the words that stand-ins are for. */
  inWords(says: string): string {
    if (this.#words.size === 0) return says;
    return says.replaceAll(STAND_IN, (stand) => this.#words.get(stand.toLowerCase()) ?? stand);
  }

  /**
   * A formula by address as the engine reads it. What the maker typed is what is kept; this happens on
   * the way into the engine only: words get stand-ins, sheets' names quotes, doubled quotes and a
   * backslash before a quote become CHAR, exponents lower case, prefixes that some files put before newer
   * functions go, and what stands on no sheet is `#REF!`.
   */
  formula(tokens: readonly Token[], isSheet: (name: string) => boolean): string {
    return tokens
      .map((token) => {
        const { type, value } = token;
        if (isOnNoSheet(token, isSheet)) return '#REF!';
        if (isReference(token)) return inEngine(value);
        if (type === 'range_named') return value.includes('!') ? value : this.of(value);
        if (type === 'string') return engineText(value);
        if (type === 'number') return value.replace('E', 'e');
        if (type === 'bool') return `${value.toUpperCase()}()`;
        if (type === 'func') return value.replace(/^(_xlfn\.|_xlws\.)+/i, '');
        return value;
      })
      .join('');
  }
}

/** The engine takes a sheet that is not there for one to come, and loses count of it later. */
function isOnNoSheet({ type, value }: Token, isSheet: (name: string) => boolean): boolean {
  if (type === 'string' || type === 'error' || !value.includes('!')) return false;
  const { sheet } = splitSheet(value);
  return sheet !== undefined && !isSheet(sheet);
}

/** A sheet's name as the engine reads it in front of an address. */
export const engineSheet = (name: string): string => `'${name.replaceAll("'", "''")}'`;

/** A reference as the engine reads it; one that it reads anyway stays letter by letter. */
function inEngine(reference: string): string {
  if (reference.startsWith("'")) return reference;
  const { sheet, rest } = splitSheet(reference);
  if (sheet === undefined || PLAIN_SHEET.test(sheet)) return reference;
  return `${engineSheet(sheet)}!${rest}`;
}

function engineText(literal: string): string {
  const closed = literal.length > 1 && literal.endsWith('"');
  if (!closed || !/""|\\"/.test(literal.slice(1))) return literal;
  const parts = literal.slice(1, -1).split('""').map(closedText);
  return `(${parts.join('&CHAR(34)&')})`;
}

/** The engine takes a quote after a backslash for one within the text. */
function closedText(part: string): string {
  const [, before = '', last = ''] = /^(.*?)(\\*)$/s.exec(part) ?? [];
  return last === '' ? `"${part}"` : `"${before}"${'&CHAR(92)'.repeat(last.length)}`;
}
