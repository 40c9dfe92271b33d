import { FORMER_FUNCTIONS } from '@kerfbook/functions';
import { FORMER_NAMES } from '../formula/former.ts';
import { textOf, tokensOf } from '../formula/tree/tokens.ts';

export interface Renaming {
  readonly text: string;
  /** How many words are others now. */
  readonly renamed: number;
}

/**
 * A formula, kept or as typed, with functions and cells under their names of today. Whole words only:
 * what stands in quotes, before a `!` or in a longer word is something else.
 * @param keeps names of cells, in small letters, that stay what they are
 */
export function formulaOfToday(formula: string, keeps: ReadonlySet<string>): Renaming {
  let renamed = 0;
  const tokens = tokensOf(formula);
  const today = tokens.map((token, at) => {
    if (token.type !== 'func' && token.type !== 'range_named') return token;
    const next = tokens
      .slice(at + 1)
      .find(({ type }) => type !== 'whitespace' && type !== 'newline');
    const now =
      next?.value === '(' ? functionOfToday(token.value) : nameOfToday(token.value, keeps);
    if (now === token.value) return token;
    renamed += 1;
    return { ...token, value: now };
  });
  return { text: textOf(today), renamed };
}

/** A sentence of a check, in which `{name}` stands for a cell. */
export function sentenceOfToday(says: string, keeps: ReadonlySet<string>): Renaming {
  let renamed = 0;
  const text = says.replace(/\{([^{}]*)\}/g, (whole, name: string) => {
    const now = nameOfToday(name, keeps);
    if (now === name) return whole;
    renamed += 1;
    return `{${now}}`;
  });
  return { text, renamed };
}

export function nameOfToday(name: string, keeps: ReadonlySet<string>): string {
  const key = name.toLowerCase();
  return keeps.has(key) ? name : (FORMER_NAMES.get(key) ?? name);
}

function functionOfToday(word: string): string {
  const now = FORMER_FUNCTIONS.get(word.toUpperCase());
  if (now === undefined) return word;
  return word === word.toLowerCase() ? now.toLowerCase() : now;
}
