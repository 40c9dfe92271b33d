import type { CellDocument } from '../../format/schema.ts';
import { type KeptReference, replaceKept } from '../kept.ts';
import { isReference, readWritten, tokensOf } from '../references.ts';
import type { Node } from './nodes.ts';
import { type Piece, parseTokens } from './parse.ts';

/** One piece of a formula's text: nothing is left out, spaces and line breaks neither. */
export interface Token {
  /** `kept`: a reference by ids; `lost`: one by address, to what is not there; else as it was read. */
  readonly type: string;
  /** Its letters as they are kept. */
  readonly value: string;
  /** What it refers to, where it is `kept`. */
  readonly reference?: KeptReference;
}

/** A formula that was read once: its text piece by piece, and what it says. */
export interface Formula {
  /** In order; joined they are the formula. */
  readonly tokens: readonly Token[];
  /** `undefined` where it cannot be read; its text is kept all the same. */
  readonly root: Node | undefined;
}

/** Reads a formula in the form in which it is kept, references by ids (rule F1). */
export function readFormula(kept: string): Formula {
  const tokens = tokensOf(kept).map(tokenOf);
  return { tokens, root: parseTokens(piecesOf(tokens)) };
}

/** The text of a formula as it is kept, letter by letter. */
export const keptOf = ({ tokens }: Formula): string => tokens.map(({ value }) => value).join('');

const READ = new WeakMap<CellDocument, Formula>();

/** The formula of a cell. Cells are replaced and never changed: each is read once. */
export function formulaOf(cell: CellDocument & { readonly formula: string }): Formula {
  let read = READ.get(cell);
  if (read === undefined) {
    read = readFormula(cell.formula);
    READ.set(cell, read);
  }
  return read;
}

function tokenOf({ type, value }: { readonly type: string; readonly value: string }): Token {
  if (type === 'kept') {
    const reference = referenceOf(value);
    return reference === undefined ? { type, value } : { type, value, reference };
  }
  const token = { type, value };
  return isReference(token) && readWritten(value) !== undefined ? { type: 'lost', value } : token;
}

function referenceOf(text: string): KeptReference | undefined {
  let found: KeptReference | undefined;
  replaceKept(text, (reference) => {
    found = reference;
    return '';
  });
  return found;
}

const SPACES = new Set(['whitespace', 'newline']);

/** Tokens without spaces; the `=` in front is a sign like others. */
function piecesOf(tokens: readonly Token[]): readonly Piece[] {
  const pieces: Piece[] = [];
  for (const [i, token] of tokens.entries()) {
    if (SPACES.has(token.type)) continue;
    // What stands behind a reference is read by itself: an `=` there looks like the one in front.
    const type = token.type === 'fx_prefix' ? 'operator' : token.type;
    pieces.push({ ...token, type, next: tokens[i + 1]?.value ?? '' });
  }
  return pieces;
}
