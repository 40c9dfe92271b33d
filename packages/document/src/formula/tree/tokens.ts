import { tokenize } from '@borgar/fx';
import { type KeptReference, replaceKept } from '../kept.ts';
import { readWritten } from '../references.ts';

/** One piece of a formula's text: nothing is left out, spaces and line breaks neither. */
export interface Token {
  /**
   * `kept`: a reference by ids; `address`: one as it is typed, or to what is not there; `func`,
   * `range_named` (a name), `string`, `number`, `bool`, `error`, `operator`, `whitespace` …
   */
  readonly type: string;
  /** Its letters as they are kept. */
  readonly value: string;
  /** What it refers to, where it is `kept`. */
  readonly reference?: KeptReference;
}

/** The text that pieces make. */
export const textOf = (tokens: readonly Token[]): string => {
  let text = '';
  for (const { value } of tokens) text += value;
  return text;
};

/** The pieces of a formula, references by ids or by address. */
export function tokensOf(formula: string): readonly Token[] {
  const found = foundIn(formula);
  if (found.length === 0) return plainTokens(formula);
  return tokensAtOnce(formula, found) ?? tokensBetween(formula, found);
}

interface Found {
  readonly reference: KeptReference;
  readonly text: string;
  readonly at: number;
}

function foundIn(formula: string): readonly Found[] {
  const found: Found[] = [];
  replaceKept(formula, (reference, text, at) => {
    found.push({ reference, text, at });
    return text;
  });
  return found;
}

const plainTokens = (text: string): readonly Token[] => tokenize(text).map(tokenOf);

/** Kinds of references of which some only look like one. */
const WRITTEN = new Set(['range', 'range_beam', 'range_ternary']);

/** Whether a piece stands for cells, or would if they were there. */
export const isReference = ({ type }: Token): boolean =>
  type === 'kept' || type === 'address' || WRITTEN.has(type);

function tokenOf(token: { readonly type: string; readonly value: string }): Token {
  const { type, value } = token;
  return WRITTEN.has(type) && readWritten(value) !== undefined ? { type: 'address', value } : token;
}

/** What a reference by ids is while its formula is read: any reference is read like any other. */
const STANDS_FOR = 'A1';

/** All of a formula in one reading; undefined where a reference would grow together with a neighbour. */
function tokensAtOnce(formula: string, found: readonly Found[]): readonly Token[] | undefined {
  let text = '';
  let read = 0;
  for (const { at, text: written } of found) {
    const end = at + written.length;
    if (!isApart(formula[at - 1], formula[end])) return undefined;
    text += formula.slice(read, at) + STANDS_FOR;
    read = end;
  }
  text += formula.slice(read);
  const tokens: Token[] = [];
  let next = 0;
  let shorter = 0;
  let place = 0;
  for (const token of tokenize(text)) {
    const one = found[next];
    if (one !== undefined && place >= one.at - shorter) {
      if (place > one.at - shorter || token.value !== STANDS_FOR) return undefined;
      tokens.push({ type: 'kept', value: one.text, reference: one.reference });
      shorter += one.text.length - STANDS_FOR.length;
      next += 1;
    } else tokens.push(tokenOf(token));
    place += token.value.length;
  }
  return next === found.length ? tokens : undefined;
}

/** What stands between references read by itself. */
function tokensBetween(formula: string, found: readonly Found[]): readonly Token[] {
  const tokens: Token[] = [];
  let read = 0;
  for (const { reference, text, at } of found) {
    if (at > read) tokens.push(...plainTokens(formula.slice(read, at)));
    tokens.push({ type: 'kept', value: text, reference });
    read = at + text.length;
  }
  if (read < formula.length) tokens.push(...plainTokens(formula.slice(read)));
  return tokens;
}

const BEFORE = new Set('=+-*/^&(,;<>{ \n');
const BEHIND = new Set('=+-*/^&),;<>}% \n');

/** Whether what stands between two letters is read by itself whatever it is. */
const isApart = (before: string | undefined, behind: string | undefined): boolean =>
  before !== undefined && BEFORE.has(before) && (behind === undefined || BEHIND.has(behind));

/** The same between two tokens. */
export const standsApart = (before: Token | undefined, behind: Token | undefined): boolean =>
  isApart(before?.value.at(-1), behind?.value[0]);
