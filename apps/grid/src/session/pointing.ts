import { type OpenWorkbook, takesReference } from '@kerfbook/workbook';
import type { Editing } from './types.ts';

export const isFormula = (text: string): boolean => /^\s*=/.test(text);

/** Where a reference would go if cells were pointed at now; undefined where none may stand. */
export function pointRange({
  text,
  caret,
  pointed,
}: Editing): readonly [number, number] | undefined {
  if (pointed !== undefined && pointed.end === caret) return [pointed.start, pointed.end];
  return takesReference(text, caret) ? [caret, caret] : undefined;
}

/** Whether a press on cells writes a reference instead of leaving the entry. */
export function mayPoint({ editing }: { readonly editing: Editing | undefined }): boolean {
  return editing !== undefined && isFormula(editing.text) && pointRange(editing) !== undefined;
}

/** Whether what is written may be words of the parts or joints table, such as a place: it stands under its heads. */
export const mayPlace = (book: OpenWorkbook, { at, text }: Editing): boolean =>
  !isFormula(text) &&
  book
    .tables()
    .some(
      ({ kind, sheet, header }) =>
        (kind === 'parts' || kind === 'joints') && sheet === at.sheet && header < at.row,
    );
