import { type AnswerOf, DONE, MOST_LISTED } from '@kerfbook/protocol';
import { sql } from 'kysely';
import type { Asker } from '../asker.ts';
import type { Club } from '../club.ts';
import { newId } from '../database/ids.ts';
import { keepImage, letImageGo, redrawn } from '../kept/images.ts';
import { personsOf } from '../kept/persons.ts';
import { notThere } from '../refused.ts';
import { spotOf, told } from './keyset.ts';
import { templateFor } from './publishing.ts';

/** Thanks for a template, once by each member. */
export async function thank(club: Club, who: Asker, template: string): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    await templateFor(club, t, who, template);
    const done = await t
      .insertInto('thanks')
      .values({ club: club.id, template, member: who.id, made: club.now() })
      .onConflict((same) => same.columns(['club', 'template', 'member']).doNothing())
      .executeTakeFirst();
    if (Number(done.numInsertedOrUpdatedRows) === 0) return;
    await t
      .updateTable('template')
      .set({ thanks: sql`thanks + 1` })
      .where('club', '=', club.id)
      .where('id', '=', template)
      .execute();
  });
  return DONE;
}

/** Takes one's thanks back. */
export async function unthank(club: Club, who: Asker, template: string): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    await templateFor(club, t, who, template);
    const done = await t
      .deleteFrom('thanks')
      .where('club', '=', club.id)
      .where('template', '=', template)
      .where('member', '=', who.id)
      .executeTakeFirst();
    if (Number(done.numDeletedRows) === 0) return;
    await t
      .updateTable('template')
      .set({ thanks: sql`thanks - 1` })
      .where('club', '=', club.id)
      .where('id', '=', template)
      .execute();
  });
  return DONE;
}

/** Rows of a template's remarks or of those who built it, the newest first; hidden ones for whose they are and for keepers. */
async function about<T extends 'remark' | 'built'>(
  club: Club,
  who: Asker,
  table: T,
  template: string,
  after: string | undefined,
) {
  const { read } = club.database;
  await templateFor(club, read, who, template);
  let query = read
    .selectFrom(table as 'remark')
    .selectAll()
    .where('club', '=', club.id)
    .where('template', '=', template);
  if (who.role !== 'keeper') {
    query = query.where((e) => e.or([e('hidden', '=', 0), e('by', '=', who.id)]));
  }
  const spot = spotOf(after);
  if (spot !== undefined) {
    query = query.where((e) =>
      e.or([e('made', '<', spot.at), e.and([e('made', '=', spot.at), e('id', '<', spot.id)])]),
    );
  }
  const rows = await query
    .orderBy('made', 'desc')
    .orderBy('id', 'desc')
    .limit(MOST_LISTED + 1)
    .execute();
  return told(rows, MOST_LISTED, ({ made, id }) => ({ at: made, id }));
}

const hiddenOf = (hidden: number) => (hidden === 0 ? {} : { hidden: true });

/** Remarks about a template. */
export async function remarks(
  club: Club,
  who: Asker,
  template: string,
  after: string | undefined,
): Promise<AnswerOf<'remarks'>> {
  const { rows, ...next } = await about(club, who, 'remark', template, after);
  const person = await personsOf(
    club,
    rows.map(({ by }) => by),
  );
  return {
    remarks: rows.map(({ id, by, text, made, hidden }) => ({
      id,
      by: person(by),
      text,
      made,
      ...hiddenOf(hidden),
    })),
    ...next,
  };
}

/** Says something about a template. */
export async function remark(
  club: Club,
  who: Asker,
  template: string,
  text: string,
): Promise<{ id: string }> {
  const id = newId();
  await club.database.write(async (t) => {
    await templateFor(club, t, who, template);
    await t
      .insertInto('remark')
      .values({ club: club.id, id, template, by: who.id, text, hidden: 0, made: club.now() })
      .execute();
  });
  return { id };
}

/** Removes a remark: one's own, one at one's own template, or any by a keeper. */
export async function removeRemark(club: Club, who: Asker, id: string): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    const row = await t
      .selectFrom('remark as r')
      .innerJoin('template as m', (on) =>
        on.onRef('m.club', '=', 'r.club').onRef('m.id', '=', 'r.template'),
      )
      .select(['r.by', 'm.maker'])
      .where('r.club', '=', club.id)
      .where('r.id', '=', id)
      .executeTakeFirst();
    const may = row?.by === who.id || row?.maker === who.id || who.role === 'keeper';
    if (row === undefined || !may) throw notThere('This remark');
    await t.deleteFrom('remark').where('club', '=', club.id).where('id', '=', id).execute();
  });
  return DONE;
}

/** Who built it. */
export async function built(
  club: Club,
  who: Asker,
  template: string,
  after: string | undefined,
): Promise<AnswerOf<'built'>> {
  const { rows, ...next } = await about(club, who, 'built', template, after);
  const person = await personsOf(
    club,
    rows.map(({ by }) => by),
  );
  type Row = (typeof rows)[number] & {
    readonly revision: number;
    readonly size: string;
    readonly changed: string;
    readonly photo: string | null;
  };
  return {
    built: (rows as readonly Row[]).map((row) => ({
      id: row.id,
      by: person(row.by),
      revision: row.revision,
      size: row.size,
      changed: row.changed,
      ...(row.photo === null ? {} : { photo: row.photo }),
      made: row.made,
      ...hiddenOf(row.hidden),
    })),
    ...next,
  };
}

/** Tells that one built it; the photograph is drawn anew, so that its place and time stay behind. */
export async function tellBuilt(
  club: Club,
  who: Asker,
  template: string,
  asked: {
    readonly revision: number;
    readonly size: string;
    readonly changed: string;
    readonly photo?: string | undefined;
  },
): Promise<{ id: string }> {
  const pixels = asked.photo === undefined ? undefined : await redrawn(asked.photo, 'photo');
  const id = newId();
  await club.database.write(async (t) => {
    const row = await templateFor(club, t, who, template);
    if (asked.revision < 1 || asked.revision > row.head) throw notThere('This revision');
    const photo = pixels === undefined ? null : await keepImage(club, t, who.id, 'photo', pixels);
    await t
      .insertInto('built')
      .values({
        club: club.id,
        id,
        template,
        revision: asked.revision,
        by: who.id,
        size: asked.size,
        changed: asked.changed,
        photo,
        hidden: 0,
        made: club.now(),
      })
      .execute();
    await t
      .updateTable('template')
      .set({ built: sql`built + 1` })
      .where('club', '=', club.id)
      .where('id', '=', template)
      .execute();
  });
  return { id };
}

/** Removes what one told, with its photograph; a keeper removes any. */
export async function removeBuilt(club: Club, who: Asker, id: string): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    const row = await t
      .selectFrom('built')
      .select(['by', 'photo', 'template'])
      .where('club', '=', club.id)
      .where('id', '=', id)
      .executeTakeFirst();
    if (row === undefined || (row.by !== who.id && who.role !== 'keeper')) {
      throw notThere('This');
    }
    await t.deleteFrom('built').where('club', '=', club.id).where('id', '=', id).execute();
    await t
      .updateTable('template')
      .set({ built: sql`built - 1` })
      .where('club', '=', club.id)
      .where('id', '=', row.template)
      .execute();
    await letImageGo(club, t, row.photo);
  });
  return DONE;
}
