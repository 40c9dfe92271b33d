import type { Card } from '@kerfbook/protocol';
import type { Write } from '../club.ts';

/**
 * The words of templates: a table of our own, so that finding is alike on every database. A facet is a word with a sign
 * before it that no plain word has.
 */

/** Words of a template that are found; more add nothing. */
const MOST_WORDS = 80;
/** Letters of a word that count. */
const LONGEST_WORD = 32;

/** A text in the form in which words are the same: case, width and accents do not count. */
export const plain = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase();

/** The words of a text. */
export function wordsOf(text: string): string[] {
  return (plain(text).match(/[\p{L}\p{N}]+/gu) ?? []).map((word) => word.slice(0, LONGEST_WORD));
}

/** The word that a facet is found by. */
export const facetWord = (of: 'kind' | 'wood' | 'joint' | 'by', value: string): string =>
  `${of}:${of === 'by' ? value : plain(value).trim()}`;

/** What a template is found by. */
export interface Findable {
  readonly title: string;
  readonly card: Card;
  readonly maker: string;
}

/** All words and facets that a template is found by. */
export function findableWords({ title, card, maker }: Findable): readonly string[] {
  const texts = [
    title,
    card.kind ?? '',
    ...card.tags,
    ...card.woods,
    ...card.joints,
    card.about ?? '',
  ];
  const words = new Set(texts.flatMap(wordsOf).slice(0, MOST_WORDS));
  return [
    ...words,
    ...(card.kind === undefined ? [] : [facetWord('kind', card.kind)]),
    ...new Set(card.woods.map((wood) => facetWord('wood', wood))),
    ...new Set(card.joints.map((joint) => facetWord('joint', joint))),
    facetWord('by', maker),
  ];
}

/** A large number minus the moment: rows in order of it begin with the newest. */
export const rankOf = (changed: number): number => 8.64e15 - changed;

/** Writes the words of a template in the place of those before; none of one that is hidden. */
export async function writeWords(
  t: Write,
  club: string,
  template: string,
  changed: number,
  words: readonly string[],
): Promise<void> {
  await t.deleteFrom('word').where('club', '=', club).where('template', '=', template).execute();
  if (words.length === 0) return;
  const rank = rankOf(changed);
  await t
    .insertInto('word')
    .values(words.map((word) => ({ club, word, rank, template })))
    .execute();
}
