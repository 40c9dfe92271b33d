import type { CellView, OpenWorkbook } from '@kerfbook/workbook';
import type { PartTrouble } from '../session/types.ts';
import { saidByWords } from './words-for.ts';

/** Why a cell bears a mark. */
export interface Reason {
  readonly state: 'stop' | 'care';
  readonly says: string;
}

/**
 * Everything that is said against a cell, in the order in which it is mended: what cannot be read or worked out, what a
 * check says of it, what the drawing says of the place or shape that it is, and what does not go together in its formula.
 */
export function reasonsOf(
  cell: Pick<CellView, 'problem' | 'value' | 'mark' | 'clash'>,
  book: Pick<OpenWorkbook, 'labelOf' | 'sheet' | 'addressOf'>,
  trouble: PartTrouble | undefined,
): readonly Reason[] {
  const { problem, value, mark, clash } = cell;
  const found: Reason[] = [];
  const add = (state: Reason['state'], says: string | undefined): void => {
    if (says !== undefined && !found.some((one) => one.says === says)) found.push({ state, says });
  };
  if (problem !== undefined) add('stop', problem.says);
  else if (value.kind === 'error') add('stop', saidByWords(value.error, book));
  if (mark !== undefined) add(mark.state, mark.says);
  if (trouble !== undefined) add(trouble.state, trouble.says);
  if (value.kind !== 'error') add('care', clash?.says);
  return found;
}

/** What is said of a cell that rests on a plan which is not proven yet. */
export const UNPROVEN = 'Still being proven: the buying plan behind it may yet cost less.';
