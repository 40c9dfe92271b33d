import { headCell, isShapeWords, SHAPE_FORMS, type ShapeForm, shapeCell } from '@kerfbook/drawing';
import { type OpenWorkbook, SHOP_COLUMNS } from '@kerfbook/workbook';
import type { Editing } from '../session/session.ts';
import { phraseAt, phraseKey } from './placing.ts';
import type { Option } from './writing.ts';

/** What the words of a shape that are being written may become: the ways to say it that begin like them. */
export function shapeOptions(book: OpenWorkbook, { at, text, caret }: Editing): readonly Option[] {
  const column = shapeCell(book, at);
  if (column === undefined) return [];
  const { start } = phraseAt(text, caret);
  const typed = phraseKey(text.slice(start, caret));
  const forms: readonly ShapeForm[] = SHAPE_FORMS[column];
  const found = forms.filter(({ words }) => phraseKey(words).startsWith(typed));
  // What is written out needs no list, and Enter is to take the entry over.
  if (found.some(({ words }) => phraseKey(words) === typed.trimEnd())) return [];
  const isWhole = isShapeWords(column, text);
  return found.map(({ words, means }): Option => {
    const option = { kind: 'shape', text: words, says: means } as const;
    return isWhole ? { ...option, asked: true } : option;
  });
}

/** Heads with a meaning that a parts table does not have yet and that begin like the one being written. */
export function headOptions(book: OpenWorkbook, { at, text, caret }: Editing): readonly Option[] {
  const there = headCell(book, at);
  const typed = phraseKey(text.slice(0, caret));
  if (there === undefined || typed === '') return [];
  const known: readonly string[] = there;
  return SHOP_COLUMNS.parts
    .filter(({ heads }) => heads.startsWith(typed) && heads !== typed && !known.includes(heads))
    .map(({ heads, means }) => ({ kind: 'head', text: heads, says: means, asked: true }));
}
