import { placeOfKey } from '@kerfbook/drawing';
import type { At } from '@kerfbook/workbook';

/** The row of the piece that was pressed; undefined beside all pieces. */
export function placeOfPiece(target: EventTarget | null): At | undefined {
  const piece = target instanceof Element ? target.closest('[data-part]') : null;
  return placeOfKey(piece?.getAttribute('data-part') ?? '');
}

/** Highlights the pieces of the row the maker is in. */
export function highlightCurrent(holder: HTMLElement | null, at: At | undefined): void {
  for (const piece of holder?.querySelectorAll('[data-part]') ?? []) {
    const place = placeOfKey(piece.getAttribute('data-part') ?? '');
    const here = place !== undefined && place.sheet === at?.sheet && place.row === at.row;
    piece.classList.toggle('is-current', here);
  }
}
