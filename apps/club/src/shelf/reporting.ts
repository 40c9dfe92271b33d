import { type AnswerOf, Card, DONE } from '@kerfbook/protocol';
import type { Asker } from '../asker.ts';
import type { Club, Write } from '../club.ts';
import { newId } from '../database/ids.ts';
import { personsOf } from '../kept/persons.ts';
import { notThere, Refused } from '../refused.ts';
import { templateFor } from './publishing.ts';
import { findableWords, writeWords } from './words.ts';

type What = 'template' | 'remark' | 'built';

/** What was reported, if whoever asks may see it: where it stands and what it says. */
async function reported(
  club: Club,
  t: Pick<Write, 'selectFrom'>,
  who: Asker,
  of: What,
  id: string,
): Promise<{ readonly template: string; readonly title: string; readonly text: string }> {
  if (of === 'template') {
    const row = await templateFor(club, t, who, id);
    return { template: row.id, title: row.title, text: row.title };
  }
  const row = await t
    .selectFrom(of as 'remark')
    .selectAll()
    .where('club', '=', club.id)
    .where('id', '=', id)
    .executeTakeFirst();
  if (row === undefined) throw notThere('What you report');
  const sees = row.hidden === 0 || row.by === who.id || who.role === 'keeper';
  if (!sees) throw notThere('What you report');
  const at = await templateFor(club, t, who, row.template);
  const built = row as typeof row & { readonly size?: string; readonly changed?: string };
  return {
    template: at.id,
    title: at.title,
    text: of === 'remark' ? row.text : `${built.size ?? ''}. ${built.changed ?? ''}`,
  };
}

/** Reports something to the keepers; the same thing once by each member. */
export async function report(
  club: Club,
  who: Asker,
  asked: { readonly of: What; readonly id: string; readonly why: string },
): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    await reported(club, t, who, asked.of, asked.id);
    const there = await t
      .selectFrom('report')
      .select('id')
      .where('club', '=', club.id)
      .where('about', '=', asked.id)
      .where('by', '=', who.id)
      .where('settled', 'is', null)
      .executeTakeFirst();
    if (there !== undefined) {
      throw new Refused('notSo', 'You reported this already; the keepers have not looked yet.');
    }
    await t
      .insertInto('report')
      .values({
        club: club.id,
        id: newId(),
        of: asked.of,
        about: asked.id,
        by: who.id,
        why: asked.why,
        made: club.now(),
        settled: null,
        outcome: null,
        settled_by: null,
      })
      .execute();
  });
  return DONE;
}

/** What waits for a keeper. */
export async function reports(club: Club, who: Asker): Promise<AnswerOf<'reports'>> {
  const { read } = club.database;
  const rows = await read
    .selectFrom('report')
    .selectAll()
    .where('club', '=', club.id)
    .where('settled', 'is', null)
    .orderBy('made')
    .limit(200)
    .execute();
  const person = await personsOf(
    club,
    rows.map(({ by }) => by),
  );
  const found = await Promise.all(
    rows.map(async (row) => {
      // It may have been removed since.
      const at = await reported(club, read, who, row.of, row.about).catch(() => undefined);
      return at === undefined
        ? []
        : [
            {
              id: row.id,
              of: row.of,
              about: row.about,
              ...at,
              by: person(row.by),
              why: row.why,
              made: row.made,
            },
          ];
    }),
  );
  return { reports: found.flat() };
}

async function setHidden(club: Club, t: Write, of: What, id: string, hidden: 0 | 1): Promise<void> {
  const done = await t
    .updateTable(of as 'remark')
    .set({ hidden })
    .where('club', '=', club.id)
    .where('id', '=', id)
    .executeTakeFirst();
  if (Number(done.numUpdatedRows) === 0) throw notThere('What was reported');
  if (of !== 'template') return;
  const row = await t
    .selectFrom('template')
    .selectAll()
    .where('club', '=', club.id)
    .where('id', '=', id)
    .executeTakeFirstOrThrow();
  const card = Card.parse(JSON.parse(row.card));
  const words = findableWords({ title: row.title, card, maker: row.maker });
  await writeWords(t, club.id, id, row.changed, hidden === 1 ? [] : words);
}

/** Hides what was reported, or leaves it; every report of the same thing is settled with it. */
export async function settleReport(
  club: Club,
  who: Asker,
  id: string,
  outcome: 'hide' | 'leave',
): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    const row = await t
      .selectFrom('report')
      .selectAll()
      .where('club', '=', club.id)
      .where('id', '=', id)
      .executeTakeFirst();
    if (row === undefined) throw notThere('This report');
    if (row.settled !== null) throw new Refused('over', 'Another keeper settled this already.');
    if (outcome === 'hide') await setHidden(club, t, row.of, row.about, 1);
    await t
      .updateTable('report')
      .set({ settled: club.now(), outcome, settled_by: who.id })
      .where('club', '=', club.id)
      .where('about', '=', row.about)
      .where('settled', 'is', null)
      .execute();
  });
  return DONE;
}

/** Shows again what was hidden. */
export async function unhide(club: Club, of: What, id: string): Promise<typeof DONE> {
  await club.database.write((t) => setHidden(club, t, of, id, 0));
  return DONE;
}
