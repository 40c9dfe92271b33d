import { jointCell } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Editing } from '../session/session.ts';
import { phraseKey } from './placing.ts';
import type { Option } from './writing.ts';

/** What a cell of the joints table may say: joints, names of parts and faces that begin like it, else hold it. */
export function jointOptions(book: OpenWorkbook, { at, text }: Editing): readonly Option[] {
  const cell = jointCell(book, at);
  if (cell === undefined) return [];
  const typed = phraseKey(text);
  const choices = cell.choices.map(({ words, means }) => ({ words, means, key: phraseKey(words) }));
  // What is written out needs no list, and Enter is to take the entry over.
  if (choices.some(({ key }) => key === typed.trimEnd())) return [];
  const begins = choices.filter(({ key }) => key.startsWith(typed));
  const holds = typed.length < 3 ? [] : choices.filter(({ key }) => key.includes(typed));
  return [...new Set([...begins, ...holds])].map(({ words, means }) => ({
    kind: 'joint',
    text: words,
    says: means,
  }));
}
