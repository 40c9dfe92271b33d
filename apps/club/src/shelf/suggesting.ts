import { type AnswerOf, Change, type Change as Changed, DONE } from '@kerfbook/protocol';
import type { Asker } from '../asker.ts';
import type { Club } from '../club.ts';
import type { SuggestionRow } from '../database/tables.ts';
import { keepBytes, packedText, readSent } from '../kept/documents.ts';
import { personsOf } from '../kept/persons.ts';
import { notThere, Refused } from '../refused.ts';
import { templateFor } from './publishing.ts';

type Head = AnswerOf<'suggestions'>['suggestions'][number];
type Found = SuggestionRow & { readonly title: string };

/** Open suggestions that one member may have at one template. */
const MOST_OPEN = 10;

const withTitles = ({ id: club, database }: Club) =>
  database.read
    .selectFrom('suggestion as s')
    .innerJoin('template as m', (on) =>
      on.onRef('m.club', '=', 's.club').onRef('m.id', '=', 's.template'),
    )
    .selectAll('s')
    .select('m.title')
    .where('s.club', '=', club);

async function heads(club: Club, rows: readonly Found[]): Promise<Head[]> {
  const person = await personsOf(
    club,
    rows.map(({ by }) => by),
  );
  return rows.map((row) => ({
    id: row.id,
    template: row.template,
    title: row.title,
    base: row.base,
    by: person(row.by),
    note: row.note,
    made: row.made,
    state: row.state,
    ...(row.word === null || row.word === '' ? {} : { word: row.word }),
    changes: Change.array().parse(JSON.parse(row.changes)),
  }));
}

/** Suggests a change; sent again by the same member it is the same one. */
export async function suggest(
  club: Club,
  who: Asker,
  template: string,
  asked: {
    readonly id: string;
    readonly base: number;
    readonly text: string;
    readonly note: string;
    readonly changes: readonly Changed[];
  },
): Promise<{ id: string }> {
  const sent = await readSent(asked.text);
  return club.database.write(async (t) => {
    const row = await templateFor(club, t, who, template);
    const there = await t
      .selectFrom('suggestion')
      .select(['by', 'template'])
      .where('club', '=', club.id)
      .where('id', '=', asked.id)
      .executeTakeFirst();
    if (there !== undefined) {
      if (there.by === who.id && there.template === template) return { id: asked.id };
      throw new Refused('changed', 'This was suggested already.');
    }
    if (asked.base < 1 || asked.base > row.head) throw notThere('The revision it was made from');
    const open = await t
      .selectFrom('suggestion')
      .select('id')
      .where('club', '=', club.id)
      .where('template', '=', template)
      .where('by', '=', who.id)
      .where('state', '=', 'open')
      .execute();
    if (open.length >= MOST_OPEN) {
      throw new Refused(
        'notSo',
        `${MOST_OPEN} of your suggestions wait for an answer here. Take one back first.`,
      );
    }
    await t
      .insertInto('suggestion')
      .values({
        club: club.id,
        id: asked.id,
        template,
        base: asked.base,
        by: who.id,
        note: asked.note,
        changes: JSON.stringify(asked.changes),
        blob: await keepBytes(club, t, sent.bytes),
        state: 'open',
        word: null,
        made: club.now(),
        answered: null,
      })
      .execute();
    return { id: asked.id };
  });
}

/** Suggestions about a template: its maker sees all, others their own. */
export async function suggestionsAbout(
  club: Club,
  who: Asker,
  template: string,
): Promise<AnswerOf<'suggestions'>> {
  const row = await templateFor(club, club.database.read, who, template);
  let query = withTitles(club).where('s.template', '=', template);
  if (row.maker !== who.id) query = query.where('s.by', '=', who.id);
  const rows = await query.orderBy('s.made', 'desc').limit(100).execute();
  return { suggestions: await heads(club, rows) };
}

/** What waits for my answer, and what became of what I suggested. */
export async function mySuggestions(club: Club, who: Asker): Promise<AnswerOf<'mySuggestions'>> {
  const [toAnswer, mine] = await Promise.all([
    withTitles(club)
      .where('m.maker', '=', who.id)
      .where('s.state', '=', 'open')
      .orderBy('s.made', 'desc')
      .limit(100)
      .execute(),
    withTitles(club).where('s.by', '=', who.id).orderBy('s.made', 'desc').limit(100).execute(),
  ]);
  return { toAnswer: await heads(club, toAnswer), mine: await heads(club, mine) };
}

/** One suggestion with its workbook: for whoever made it and for the template's maker. */
export async function suggestion(
  club: Club,
  who: Asker,
  id: string,
): Promise<AnswerOf<'suggestion'>> {
  const row = await withTitles(club).select('m.maker').where('s.id', '=', id).executeTakeFirst();
  if (row === undefined || (row.by !== who.id && row.maker !== who.id)) {
    throw notThere('This suggestion');
  }
  const [head] = await heads(club, [row]);
  if (head === undefined) throw notThere('This suggestion');
  return { suggestion: head, text: await packedText(club, row.blob) };
}

async function answer(
  club: Club,
  who: Asker,
  id: string,
  how: { readonly state: 'declined' | 'takenBack'; readonly word: string | null },
): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    const row = await t
      .selectFrom('suggestion as s')
      .innerJoin('template as m', (on) =>
        on.onRef('m.club', '=', 's.club').onRef('m.id', '=', 's.template'),
      )
      .select(['s.by', 's.state', 'm.maker'])
      .where('s.club', '=', club.id)
      .where('s.id', '=', id)
      .executeTakeFirst();
    const whose = how.state === 'declined' ? row?.maker : row?.by;
    if (row === undefined || whose !== who.id) throw notThere('This suggestion');
    if (row.state !== 'open') {
      throw new Refused('over', 'This suggestion was answered or taken back already.');
    }
    await t
      .updateTable('suggestion')
      .set({ state: how.state, word: how.word, answered: club.now() })
      .where('club', '=', club.id)
      .where('id', '=', id)
      .execute();
  });
  return DONE;
}

/** Declines a suggestion with a word. */
export const decline = (club: Club, who: Asker, id: string, word: string) =>
  answer(club, who, id, { state: 'declined', word });

/** Takes one's own suggestion back. */
export const takeBack = (club: Club, who: Asker, id: string) =>
  answer(club, who, id, { state: 'takenBack', word: null });
