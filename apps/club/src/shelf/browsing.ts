import { type AnswerOf, Card, Change, MOST_LISTED, type ROUTES } from '@kerfbook/protocol';
import type { z } from 'zod';
import type { Asker } from '../asker.ts';
import type { Club } from '../club.ts';
import type { TemplateRow } from '../database/tables.ts';
import { packedText } from '../kept/documents.ts';
import { personsOf } from '../kept/persons.ts';
import { notThere } from '../refused.ts';
import { facetCounts, newestWith, plan, type Term } from './finding.ts';
import { nextOf, spotOf } from './keyset.ts';
import { templateFor } from './publishing.ts';
import { facetWord, rankOf, wordsOf } from './words.ts';

type Listed = AnswerOf<'browse'>['templates'][number];
type Licence = Listed['licence'];
type Asked = z.output<typeof ROUTES.browse.query>;

/** Kinds, woods and joints that filters offer. */
const MOST_FACETS = 60;

async function listed(club: Club, rows: readonly TemplateRow[]): Promise<Listed[]> {
  const person = await personsOf(
    club,
    rows.map(({ maker }) => maker),
  );
  return rows.map((row) => ({
    id: row.id,
    title: row.title,
    by: person(row.maker),
    card: Card.parse(JSON.parse(row.card)),
    ...(row.picture === null ? {} : { picture: row.picture }),
    licence: row.licence as Licence,
    revision: row.head,
    changed: row.changed,
    thanks: row.thanks,
    built: row.built,
    ...(row.hidden === 0 ? {} : { hidden: true }),
  }));
}

/** What was typed and chosen, as words that all have to be there. */
function termsOf({ find = '', kind, wood, joint, by }: Asked): readonly Term[] {
  const typed = [...new Set(wordsOf(find))].slice(0, 8).map((word) => ({ word, whole: false }));
  const chosen = [
    ...(kind === undefined ? [] : [facetWord('kind', kind)]),
    ...(wood === undefined ? [] : [facetWord('wood', wood)]),
    ...(joint === undefined ? [] : [facetWord('joint', joint)]),
    ...(by === undefined ? [] : [facetWord('by', by)]),
  ].map((word) => ({ word, whole: true }));
  return [...typed, ...chosen];
}

const rangeOf = (longest: string | undefined): readonly [number, number] | undefined => {
  const [from, to] = longest?.split('-').map(Number) ?? [];
  return from === undefined || to === undefined ? undefined : [from, to];
};

/** Templates on the shelf, a page at a time. */
export async function browse(club: Club, asked: Asked): Promise<AnswerOf<'browse'>> {
  const { order = 'changed' } = asked;
  const terms = termsOf(asked);
  const range = rangeOf(asked.longest);
  const wanted = MOST_LISTED + 1;
  if (terms.length === 0) return page(club, await inOrder(club, asked, [], range, wanted), order);
  const planned = await plan(club.database.read, club.id, terms);
  if (planned === undefined) return { templates: [] };
  if (order !== 'changed') {
    return page(club, await inOrder(club, asked, planned.sets, range, wanted), order);
  }
  const spot = spotOf(asked.after);
  const after = spot === undefined ? undefined : { rank: rankOf(spot.at), template: spot.id };
  const sought = { sets: planned.sets, longest: range };
  const hits = await newestWith(club.database.read, club.id, sought, after, wanted);
  return page(
    club,
    await rowsOf(
      club,
      hits.map(({ template }) => template),
    ),
    order,
  );
}

async function rowsOf(
  { id: club, database }: Club,
  ids: readonly string[],
): Promise<TemplateRow[]> {
  if (ids.length === 0) return [];
  const rows = await database.read
    .selectFrom('template')
    .selectAll()
    .where('club', '=', club)
    .where('id', 'in', ids)
    .execute();
  const byId = new Map(rows.map((row) => [row.id, row]));
  return ids.flatMap((id) => byId.get(id) ?? []);
}

/** Goes through the key that a list is in order of; words are looked up for each template it comes to. */
function inOrder(
  { id: club, database }: Club,
  { order = 'changed', after }: Asked,
  sets: readonly (readonly string[])[],
  range: readonly [number, number] | undefined,
  most: number,
): Promise<TemplateRow[]> {
  let query = database.read
    .selectFrom('template as m')
    .selectAll()
    .where('m.club', '=', club)
    .where('m.hidden', '=', 0);
  const spot = spotOf(after);
  if (spot !== undefined) {
    query = query.where((e) =>
      e.or([
        e(`m.${order}`, '<', spot.at),
        e.and([e(`m.${order}`, '=', spot.at), e('m.id', '<', spot.id)]),
      ]),
    );
  }
  for (const set of sets) {
    query = query.where(({ exists, selectFrom }) =>
      exists(
        selectFrom('word as x')
          .select('x.template')
          .where('x.club', '=', club)
          .whereRef('x.template', '=', 'm.id')
          .where('x.word', 'in', set),
      ),
    );
  }
  if (range !== undefined) {
    query = query.where('m.longest', '>=', range[0]).where('m.longest', '<=', range[1]);
  }
  return query.orderBy(`m.${order}`, 'desc').orderBy('m.id', 'desc').limit(most).execute();
}

async function page(
  club: Club,
  rows: readonly TemplateRow[],
  order: 'changed' | 'thanks' | 'built',
): Promise<AnswerOf<'browse'>> {
  const shown = rows.slice(0, MOST_LISTED);
  const last = shown.at(-1);
  return {
    templates: await listed(club, shown),
    ...(rows.length > MOST_LISTED && last !== undefined
      ? { next: nextOf({ at: last[order], id: last.id }) }
      : {}),
  };
}

/** What filters offer. */
export async function facets({ id: club, database }: Club): Promise<AnswerOf<'facets'>> {
  const [kinds, woods, joints] = await Promise.all(
    (['kind', 'wood', 'joint'] as const).map((of) =>
      facetCounts(database.read, club, of, MOST_FACETS),
    ),
  );
  return { kinds: kinds ?? [], woods: woods ?? [], joints: joints ?? [] };
}

/** One template with its revisions. */
export async function template(club: Club, who: Asker, id: string): Promise<AnswerOf<'template'>> {
  const { read } = club.database;
  const row = await templateFor(club, read, who, id);
  const mine = row.maker === who.id;
  const [revisions, thanked, open, from] = await Promise.all([
    read
      .selectFrom('revision')
      .selectAll()
      .where('club', '=', club.id)
      .where('template', '=', id)
      .orderBy('number', 'desc')
      .limit(200)
      .execute(),
    read
      .selectFrom('thanks')
      .select('member')
      .where('club', '=', club.id)
      .where('template', '=', id)
      .where('member', '=', who.id)
      .executeTakeFirst(),
    mine
      ? read
          .selectFrom('suggestion')
          .select((e) => e.fn.countAll<number>().as('count'))
          .where('club', '=', club.id)
          .where('template', '=', id)
          .where('state', '=', 'open')
          .executeTakeFirst()
      : undefined,
    row.from_template === null
      ? undefined
      : templateFor(club, read, who, row.from_template).catch(() => undefined),
  ]);
  const person = await personsOf(
    club,
    revisions.flatMap((one) => [one.by, one.suggested_by]),
  );
  const [template] = await listed(club, [row]);
  if (template === undefined) throw notThere('This template');
  return {
    template,
    revisions: revisions.map((one) => ({
      number: one.number,
      by: person(one.by),
      note: one.note,
      made: one.made,
      sign: one.sign,
      changes: Change.array().parse(JSON.parse(one.changes)),
      ...(one.suggested_by === null ? {} : { suggestedBy: person(one.suggested_by) }),
    })),
    ...(from === undefined
      ? {}
      : { from: { id: from.id, title: from.title, revision: row.from_revision ?? 1 } }),
    mine,
    thanked: thanked !== undefined,
    openSuggestions: Number(open?.count ?? 0),
  };
}

/** The saved text of a revision. */
export async function revision(
  club: Club,
  who: Asker,
  id: string,
  number: number,
): Promise<AnswerOf<'revision'>> {
  const { read } = club.database;
  await templateFor(club, read, who, id);
  const row = await read
    .selectFrom('revision')
    .select(['sign', 'blob'])
    .where('club', '=', club.id)
    .where('template', '=', id)
    .where('number', '=', number)
    .executeTakeFirst();
  if (row === undefined) throw notThere('This revision');
  return { text: await packedText(club, row.blob), sign: row.sign, number };
}
