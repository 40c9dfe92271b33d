import { nameKey, type OpenWorkbook, typedTokens } from '@kerfbook/workbook';
import { isFormula } from '../session/pointing.ts';
import type { Editing } from '../session/session.ts';
import { readsOf } from './writing.ts';

/** A piece of a formula as it is coloured while it is written. */
interface ColouredToken {
  readonly text: string;
  readonly kind: string;
  /** The hue of the outline of the cells it stands for. */
  readonly hue?: number;
  /** One of the two brackets at the caret, or one that has no other. */
  readonly bracket?: 'pair' | 'alone';
}

const HUES = 4;

/** A formula being written, in pieces; references in the hue their cells are outlined in (G28). */
export function colouredTokens(book: OpenWorkbook, editing: Editing): readonly ColouredToken[] {
  const { text, caret } = editing;
  if (!isFormula(text)) return [];
  const hues = new Map(
    readsOf(book, editing).map((read, i) => [nameKey(read.text.replaceAll('$', '')), i % HUES]),
  );
  const brackets = bracketsAt(text, caret);
  const tokens: ColouredToken[] = [];
  let at = 0;
  const plain = (to: number): void => {
    for (; at < to; at += 1) {
      const bracket = brackets.get(at);
      const letter = text[at] ?? '';
      tokens.push({ text: letter, kind: 'sign', ...(bracket === undefined ? {} : { bracket }) });
    }
  };
  for (const token of typedTokens(text)) {
    plain(token.start);
    const bracketed = [...brackets.keys()].some((one) => one >= token.start && one < token.end);
    if (token.kind === 'text' || !bracketed) {
      const hue = hues.get(nameKey(token.text.replaceAll('$', '')));
      tokens.push({ text: token.text, kind: token.kind, ...(hue === undefined ? {} : { hue }) });
      at = token.end;
    } else plain(token.end);
  }
  plain(text.length);
  return tokens;
}

/** Brackets outside quoted words: the pair at the caret, and any that has no other. */
export function bracketsAt(text: string, caret: number): ReadonlyMap<number, 'pair' | 'alone'> {
  const found = new Map<number, 'pair' | 'alone'>();
  const open: number[] = [];
  const atCaret = (index: number): boolean => index === caret - 1 || index === caret;
  let quote: string | undefined;
  for (let i = 0; i < text.length; i += 1) {
    const letter = text[i] ?? '';
    if (quote !== undefined) {
      if (letter === quote) quote = undefined;
    } else if (letter === '"' || letter === "'") quote = letter;
    else if (letter === '(') open.push(i);
    else if (letter === ')') {
      const from = open.pop();
      if (from === undefined) found.set(i, 'alone');
      else if (atCaret(i) || atCaret(from)) {
        found.set(from, 'pair');
        found.set(i, 'pair');
      }
    }
  }
  // A bracket still open is no fault while its maker is writing; only a caret beside it tells so.
  for (const from of open) if (atCaret(from)) found.set(from, 'alone');
  return found;
}

/** Draws the pieces into an element that lies under the letters of the field. */
export function paintTokens(element: HTMLElement, tokens: readonly ColouredToken[]): void {
  element.replaceChildren(
    ...tokens.map(({ text, kind, hue, bracket }) => {
      const piece = document.createElement('span');
      piece.textContent = text;
      piece.dataset.kind = kind;
      if (hue !== undefined) piece.dataset.hue = String(hue);
      if (bracket !== undefined) piece.dataset.bracket = bracket;
      return piece;
    }),
  );
}
