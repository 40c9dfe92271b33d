import { MOST_COUNTED } from '@kerfbook/protocol';
import type { Kysely } from 'kysely';
import type { Tables } from '../database/tables.ts';

/**
 * Finds templates by words. Each word that is typed is a beginning; it is spelled out to the words of the shelf that begin
 * so, by steps from one word to the next in the key, and the rarest of what was typed is gone through from the newest on.
 */

/** A word as it was typed: found by its beginning, or as a whole. */
export interface Term {
  readonly word: string;
  readonly whole: boolean;
}

/** Words that one beginning is spelled out to. */
const MOST_SPELLED = 24;

/** The first word behind all that begin so; texts are compared byte by byte. */
const behind = (word: string): string => `${word}\u{10ffff}`;

/**
 * The words of the shelf that begin so, in order, at most so many. Each step looks for the next word behind the one before in
 * the key, so that no row of a common word but its first is read; whatever asks for an order would have all steps taken.
 */
async function wordsFrom(
  read: Kysely<Tables>,
  club: string,
  begin: string,
  most: number,
): Promise<readonly string[]> {
  const end = behind(begin);
  const rows = await read
    .withRecursive('step(word)', (q) =>
      q
        .selectFrom('word')
        .select((e) => e.fn.min<string | null>('word').as('word'))
        .where('club', '=', club)
        .where('word', '>=', begin)
        .where('word', '<', end)
        .unionAll(
          q
            .selectFrom('step')
            .select(({ selectFrom }) =>
              selectFrom('word as w')
                .select((e) => e.fn.min('w.word').as('next'))
                .where('w.club', '=', club)
                .whereRef('w.word', '>', 'step.word')
                .where('w.word', '<', end)
                .as('word'),
            )
            .where('step.word', 'is not', null),
        ),
    )
    .selectFrom('step')
    .select('word')
    .where('word', 'is not', null)
    .limit(most)
    .execute();
  return rows.flatMap(({ word }) => (word === null ? [] : [word]));
}

/** How many rows a set of words has, counted up to {@link MOST_COUNTED}. */
async function howMany(
  read: Kysely<Tables>,
  club: string,
  words: readonly string[],
): Promise<number> {
  const rows = await read
    .selectFrom((inner) =>
      inner
        .selectFrom('word')
        .select('template')
        .where('club', '=', club)
        .where('word', 'in', words)
        .limit(MOST_COUNTED)
        .as('some'),
    )
    .select((e) => e.fn.countAll<number>().as('count'))
    .executeTakeFirstOrThrow();
  return Number(rows.count);
}

/** A template that was found, in the order of the newest. */
export interface Hit {
  readonly rank: number;
  readonly template: string;
}

/** What has to be true of what is found. */
export interface Sought {
  readonly terms: readonly Term[];
  /** Longest measure, mm. */
  readonly longest?: readonly [from: number, to: number] | undefined;
}

/** What was typed, spelled out, with the rarest first; nothing where a word is not on the shelf at all. */
export async function plan(
  read: Kysely<Tables>,
  club: string,
  terms: readonly Term[],
): Promise<{ readonly sets: readonly (readonly string[])[]; readonly rarest: number } | undefined> {
  const sets = await Promise.all(
    terms.map(({ word, whole }) => (whole ? [word] : wordsFrom(read, club, word, MOST_SPELLED))),
  );
  if (sets.some((set) => set.length === 0)) return undefined;
  const counts = await Promise.all(sets.map((set) => howMany(read, club, set)));
  const order = sets.map((_, i) => i).sort((a, b) => (counts[a] ?? 0) - (counts[b] ?? 0));
  return {
    sets: order.map((i) => sets[i] ?? []),
    rarest: Math.min(...counts),
  };
}

/**
 * The templates that have all the words, the newest first.
 * @param after of the last one that was told before
 */
export async function newestWith(
  read: Kysely<Tables>,
  club: string,
  { sets, longest }: { readonly sets: readonly (readonly string[])[] } & Pick<Sought, 'longest'>,
  after: Hit | undefined,
  most: number,
): Promise<readonly Hit[]> {
  const [rarest = [], ...rest] = sets;
  // Word by word: within one the key itself has the newest first, and no more is read than is told.
  const found = await Promise.all(
    rarest.map((word) => {
      let query = read
        .selectFrom('word as w')
        .select(['w.rank', 'w.template'])
        .where('w.club', '=', club)
        .where('w.word', '=', word);
      if (after !== undefined) {
        query = query.where((e) =>
          e.or([
            e('w.rank', '>', after.rank),
            e.and([e('w.rank', '=', after.rank), e('w.template', '>', after.template)]),
          ]),
        );
      }
      for (const set of rest) {
        query = query.where(({ exists, selectFrom }) =>
          exists(
            selectFrom('word as x')
              .select('x.template')
              .where('x.club', '=', club)
              .whereRef('x.template', '=', 'w.template')
              .where('x.word', 'in', set),
          ),
        );
      }
      if (longest !== undefined) {
        query = query.where(({ exists, selectFrom }) =>
          exists(
            selectFrom('template as m')
              .select('m.id')
              .where('m.club', '=', club)
              .whereRef('m.id', '=', 'w.template')
              .where('m.longest', '>=', longest[0])
              .where('m.longest', '<=', longest[1]),
          ),
        );
      }
      return query.orderBy('w.rank').orderBy('w.template').limit(most).execute();
    }),
  );
  const seen = new Map<string, Hit>();
  for (const hit of found.flat()) seen.set(hit.template, hit);
  return [...seen.values()]
    .sort((a, b) => a.rank - b.rank || (a.template < b.template ? -1 : 1))
    .slice(0, most);
}

/** Words with a sign before them, with how many templates each has, counted up to {@link MOST_COUNTED}. */
export async function facetCounts(
  read: Kysely<Tables>,
  club: string,
  of: 'kind' | 'wood' | 'joint',
  most: number,
): Promise<[string, number][]> {
  const found = await wordsFrom(read, club, `${of}:`, most);
  const counts = await Promise.all(found.map((word) => howMany(read, club, [word])));
  return found.map((word, i) => [word.slice(of.length + 1), counts[i] ?? 0]);
}
