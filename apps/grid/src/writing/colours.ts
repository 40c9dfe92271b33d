import { formulaParts, nameKey, type OpenWorkbook } from '@kerfbook/workbook';
import { isFormula } from '../session/pointing.ts';
import type { Editing } from '../session/session.ts';
import { readsOf } from './writing.ts';

/** A piece of a formula as it is coloured while it is written. */
interface ColouredPart {
  readonly text: string;
  readonly kind: string;
  /** The hue of the outline of the cells it stands for. */
  readonly hue?: number;
  /** One of the two brackets at the caret, or one that has no other. */
  readonly bracket?: 'pair' | 'alone';
}

const HUES = 4;

/** A formula being written, in pieces; references in the hue their cells are outlined in (G28). */
export function colouredParts(book: OpenWorkbook, editing: Editing): readonly ColouredPart[] {
  const { text, caret } = editing;
  if (!isFormula(text)) return [];
  const hues = new Map(
    readsOf(book, editing).map((read, i) => [nameKey(read.text.replaceAll('$', '')), i % HUES]),
  );
  const brackets = bracketsAt(text, caret);
  const parts: ColouredPart[] = [];
  let at = 0;
  const plain = (to: number): void => {
    for (; at < to; at += 1) {
      const bracket = brackets.get(at);
      const letter = text[at] ?? '';
      parts.push({ text: letter, kind: 'sign', ...(bracket === undefined ? {} : { bracket }) });
    }
  };
  for (const part of formulaParts(text)) {
    plain(part.start);
    const bracketed = [...brackets.keys()].some((one) => one >= part.start && one < part.end);
    if (part.kind === 'text' || !bracketed) {
      const hue = hues.get(nameKey(part.text.replaceAll('$', '')));
      parts.push({ text: part.text, kind: part.kind, ...(hue === undefined ? {} : { hue }) });
      at = part.end;
    } else plain(part.end);
  }
  plain(text.length);
  return parts;
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
export function paintParts(element: HTMLElement, parts: readonly ColouredPart[]): void {
  element.replaceChildren(
    ...parts.map(({ text, kind, hue, bracket }) => {
      const piece = document.createElement('span');
      piece.textContent = text;
      piece.dataset.kind = kind;
      if (hue !== undefined) piece.dataset.hue = String(hue);
      if (bracket !== undefined) piece.dataset.bracket = bracket;
      return piece;
    }),
  );
}
