import { applyChanges } from '../changes/apply.ts';
import { cellsByIds, checksByIds } from '../changes/loose.ts';
import type { BookState } from '../state/state.ts';

/** A workbook that is opened, its references by address turned into ids (rule F7). */
export function keptByIds(state: BookState): BookState {
  return applyChanges(state, [...cellsByIds(state), ...checksByIds(state)]).state;
}
