import type { Club, Write } from '../club.ts';
import { letBytesGo } from '../kept/documents.ts';
import { letImageGo } from '../kept/images.ts';

/** Takes a template off the shelf with all that belongs to it. */
export async function takeTemplateOff(club: Club, t: Write, template: string): Promise<void> {
  const { id } = club;
  const row = await t
    .selectFrom('template')
    .select('picture')
    .where('club', '=', id)
    .where('id', '=', template)
    .executeTakeFirst();
  if (row === undefined) return;
  const of = <T extends 'revision' | 'suggestion'>(table: T) =>
    t
      .selectFrom(table as 'revision')
      .select('blob')
      .where('club', '=', id)
      .where('template', '=', template)
      .execute();
  const bytes = [...(await of('revision')), ...(await of('suggestion'))].map(({ blob }) => blob);
  const photos = await t
    .selectFrom('built')
    .select('photo')
    .where('club', '=', id)
    .where('template', '=', template)
    .execute();
  for (const table of ['revision', 'suggestion', 'word', 'thanks', 'remark', 'built'] as const) {
    await t.deleteFrom(table).where('club', '=', id).where('template', '=', template).execute();
  }
  await t.deleteFrom('template').where('club', '=', id).where('id', '=', template).execute();
  await letImageGo(club, t, row.picture);
  for (const { photo } of photos) await letImageGo(club, t, photo);
  await letBytesGo(club, t, bytes);
}
