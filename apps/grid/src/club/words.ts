import type { BookCard } from '@kerfbook/drawing';
import { type Card, LICENCES, type Licence } from '@kerfbook/protocol';
import type { Listed } from '@kerfbook/workbook';

export { counted } from '../library/kinds.ts';

/** Licenses by the name alone. */
export const LICENCE_SHORT: Readonly<Record<Licence, string>> = {
  'cc0-1.0': 'CC0',
  'cc-by-4.0': 'CC BY',
  'cc-by-sa-4.0': 'CC BY-SA',
  'cc-by-nc-sa-4.0': 'CC BY-NC-SA',
  club: 'for this club alone',
};

/** The licenses in the order in which they are offered. */
export const LICENCE_KEYS = Object.keys(LICENCES) as readonly Licence[];

/** As many as a revision tells of; what is beyond is told as a number. */
const MOST = 500;

/** What differs, as a revision tells of it. */
export function changesOf(all: readonly Listed[]) {
  const told = all.length > MOST ? all.slice(0, MOST - 1) : all;
  const changes = told.map(({ sheet, what, before, after }) => ({
    sheet: cut(sheet, 80),
    what: cut(what, 300),
    before: cut(before, 2_000),
    after: cut(after, 2_000),
  }));
  if (told === all) return changes;
  const left = all.length - told.length;
  return [...changes, { sheet: '', what: `And ${left} more`, before: '', after: '' }];
}

/** Words as the club takes them: no control characters, and no longer than they may be. */
export function cut(words: string, most: number): string {
  const plain = words.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g, ' ');
  return plain.length <= most ? plain : `${plain.slice(0, most - 1)}…`;
}

/** The same on one line; nothing where nothing is left. */
export function cutLine(words: string, most: number): string | undefined {
  const line = cut(words.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ').trim(), most);
  return line === '' ? undefined : line;
}

/** What a template says of itself, as the cards of the list of workbooks show it. */
export function cardFacts({ about, size, tags, woods, joints, results }: Card): BookCard {
  return {
    ...(about === undefined ? {} : { about }),
    ...(size === undefined ? {} : { size }),
    tags,
    woods,
    joints,
    results,
    gives: [],
  };
}
