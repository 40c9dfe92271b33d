import { nameKey } from '../formula/names.ts';

/**
 * How names of cells stand in a column of a table, where they are words of its text and no formula: one by one with commas
 * between; as the first word of each clause, with semicolons between; or as the head of the column itself.
 */
export type NamesIn = 'list' | 'clauses' | 'head';

const COLUMNS: Readonly<Record<string, Readonly<Record<string, NamesIn>>>> = {
  steps: { measure: 'list' },
  studies: { over: 'clauses', show: 'list', goal: 'clauses' },
};

/**
 * How names stand in the column of a table of this kind that is headed so; nothing where it holds none. Every head of a
 * table of variants but its first and what is known there is a name.
 */
export function namesInColumn(kind: string, head: string): NamesIn | undefined {
  if (kind === 'variants') return 'head';
  const columns = Object.hasOwn(COLUMNS, kind) ? COLUMNS[kind] : undefined;
  const known = head.trim().toLowerCase();
  return columns !== undefined && Object.hasOwn(columns, known) ? columns[known] : undefined;
}

/** A text of such a column with another name for a cell. */
export function renamedListed(text: string, how: NamesIn, from: string, to: string): string {
  const then = (word: string): string => (nameKey(word) === nameKey(from) ? to : word);
  switch (how) {
    case 'head':
      return text.replace(/^(\s*)(.*?)(\s*)$/s, (_, a: string, word: string, b: string) =>
        [a, then(word), b].join(''),
      );
    case 'list':
      return text.replace(/[^,\s][^,]*?(?=\s*(?:,|$))/g, then);
    case 'clauses':
      return text.replace(/(^|;)(\s*)([^\s;,=]+)/g, (_, a: string, b: string, word: string) =>
        [a, b, then(word)].join(''),
      );
  }
}
