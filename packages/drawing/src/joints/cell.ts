import { FACE_WORDS, JOINT_FORMS, type JointColumn } from '@kerfbook/functions/joints';
import type { At } from '@kerfbook/workbook';
import { endBelow, type PartsSource } from '../parts-source.ts';

/** A cell of a joints table that takes words. */
export interface JointCell {
  /** Under which head it stands. */
  readonly column: Extract<JointColumn, 'joint' | 'part' | 'into' | 'face'>;
  /** What it may say, with what that means where it needs saying. */
  readonly choices: readonly { readonly words: string; readonly means: string }[];
}

const TAKES_WORDS: ReadonlySet<string> = new Set(['joint', 'part', 'into', 'face']);

/** What a cell may say where it is one of a joints table that takes words; undefined anywhere else. */
export function jointCell(source: PartsSource, at: At): JointCell | undefined {
  const table = source.tables().find(({ kind }) => kind === 'joints');
  if (table === undefined || table.sheet !== at.sheet || at.row <= table.header) return undefined;
  if (at.row >= endBelow(source, table)) return undefined;
  const head = source.value({ ...at, row: table.header });
  const column = head.kind === 'text' ? head.text.trim().toLowerCase() : '';
  if (!TAKES_WORDS.has(column)) return undefined;
  const choices =
    column === 'joint'
      ? JOINT_FORMS
      : (column === 'face' ? FACE_WORDS : partNames(source)).map((words) => ({ words, means: '' }));
  return { column: column as JointCell['column'], choices };
}

/** Names in the parts table, each once. */
function partNames(source: PartsSource): readonly string[] {
  const table = source.tables().find(({ kind }) => kind === 'parts');
  if (table === undefined) return [];
  const { columns = 0 } = source.sheet(table.sheet) ?? {};
  const text = (row: number, column: number): string => {
    const value = source.value({ sheet: table.sheet, row, column });
    return value.kind === 'text' ? value.text.trim() : '';
  };
  const heads = Array.from({ length: columns }, (_, column) => text(table.header, column));
  const column = heads.findIndex((head) => head.toLowerCase() === 'part');
  if (column < 0) return [];
  const names = new Map<string, string>();
  for (let row = table.header + 1; row <= table.last; row++) {
    const name = text(row, column);
    if (name !== '' && !names.has(name.toLowerCase())) names.set(name.toLowerCase(), name);
  }
  return [...names.values()];
}
