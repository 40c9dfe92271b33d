import { type Card, type Change, DONE, type Licence } from '@kerfbook/protocol';
import type { Asker } from '../asker.ts';
import type { Club, Write } from '../club.ts';
import type { TemplateRow } from '../database/tables.ts';
import { keepBytes, readSent, type Sent } from '../kept/documents.ts';
import { keepImage, letImageGo, type Pixels, redrawn } from '../kept/images.ts';
import { notThere, Refused } from '../refused.ts';
import { takeTemplateOff } from './removing.ts';
import { findableWords, writeWords } from './words.ts';

/** A state of a template on its way to the shelf. */
export interface Edition {
  readonly text: string;
  readonly card: Card;
  readonly picture?: string | undefined;
  readonly note: string;
  readonly changes: readonly Change[];
}

/** What of an edition takes time is done before the transaction. */
interface Ready {
  readonly sent: Sent;
  readonly pixels: Pixels | undefined;
}

async function ready({ text, picture }: Edition): Promise<Ready> {
  const sent = await readSent(text);
  const pixels = picture === undefined ? undefined : await redrawn(picture, 'picture');
  return { sent, pixels };
}

/**
 * A template that whoever asks may see: one that is hidden is there for its maker and for keepers alone.
 * @throws Refused
 */
export async function templateFor(
  club: Club,
  t: Pick<Write, 'selectFrom'>,
  who: Asker,
  id: string,
): Promise<TemplateRow> {
  const row = await t
    .selectFrom('template')
    .selectAll()
    .where('club', '=', club.id)
    .where('id', '=', id)
    .executeTakeFirst();
  const sees = row?.hidden === 0 || row?.maker === who.id || who.role === 'keeper';
  if (row === undefined || !sees) throw notThere('This template');
  return row;
}

/** Its maker alone changes a template. */
function refuseOthers(row: TemplateRow, who: Asker): void {
  if (row.maker !== who.id) {
    throw new Refused(
      'notAllowed',
      `"${row.title}" is somebody else's. Suggest the change to its maker, or publish yours as a template of your own.`,
    );
  }
}

async function addRevision(
  club: Club,
  t: Write,
  who: Asker,
  to: {
    readonly template: string;
    readonly number: number;
    readonly edition: Edition;
    readonly ready: Ready;
    readonly suggestedBy?: string;
  },
): Promise<void> {
  const { template, number, edition, ready: made } = to;
  await t
    .insertInto('revision')
    .values({
      club: club.id,
      template,
      number,
      by: who.id,
      suggested_by: to.suggestedBy ?? null,
      note: edition.note,
      changes: JSON.stringify(edition.changes),
      sign: made.sent.sign,
      blob: await keepBytes(club, t, made.sent.bytes),
      made: club.now(),
    })
    .execute();
}

/** Puts a new template on the shelf; sent again by the same maker it is the same one. */
export async function publish(
  club: Club,
  who: Asker,
  asked: Edition & {
    readonly id: string;
    readonly licence: Licence;
    readonly from?: { readonly id: string; readonly revision: number } | undefined;
  },
): Promise<{ id: string; revision: number }> {
  const made = await ready(asked);
  const { id: template } = asked;
  return club.database.write(async (t) => {
    const there = await t
      .selectFrom('template')
      .innerJoin('revision', (on) =>
        on
          .onRef('revision.club', '=', 'template.club')
          .onRef('revision.template', '=', 'template.id')
          .on('revision.number', '=', 1),
      )
      .select(['template.maker', 'revision.sign', 'template.head'])
      .where('template.club', '=', club.id)
      .where('template.id', '=', template)
      .executeTakeFirst();
    if (there !== undefined) {
      if (there.maker === who.id && there.sign === made.sent.sign)
        return { id: template, revision: 1 };
      throw new Refused(
        'changed',
        'This template is on the shelf already. Publish a revision of it.',
        {
          head: there.maker === who.id ? there.head : 0,
        },
      );
    }
    const at = club.now();
    const { title } = made.sent.document;
    const picture =
      made.pixels === undefined ? null : await keepImage(club, t, who.id, 'picture', made.pixels);
    await t
      .insertInto('template')
      .values({
        club: club.id,
        id: template,
        maker: who.id,
        title,
        licence: asked.licence,
        card: JSON.stringify(asked.card),
        kind: asked.card.kind ?? '',
        longest: asked.card.longest === undefined ? null : Math.round(asked.card.longest),
        picture,
        head: 1,
        from_template: asked.from?.id ?? null,
        from_revision: asked.from?.revision ?? null,
        thanks: 0,
        built: 0,
        hidden: 0,
        made: at,
        changed: at,
      })
      .execute();
    await addRevision(club, t, who, { template, number: 1, edition: asked, ready: made });
    await writeWords(
      t,
      club.id,
      template,
      at,
      findableWords({ title, card: asked.card, maker: who.id }),
    );
    return { id: template, revision: 1 };
  });
}

/** The next revision of a template, on top of the last one that its maker has seen. */
async function nextRevision(
  club: Club,
  t: Write,
  who: Asker,
  row: TemplateRow,
  to: {
    readonly parent: number;
    readonly edition: Edition;
    readonly ready: Ready;
    readonly suggestedBy?: string;
  },
): Promise<number> {
  refuseOthers(row, who);
  const { edition, ready: made } = to;
  if (row.head !== to.parent) {
    // What was acknowledged and not heard is sent again: it is the revision that stands.
    const last = await t
      .selectFrom('revision')
      .select('sign')
      .where('club', '=', club.id)
      .where('template', '=', row.id)
      .where('number', '=', row.head)
      .executeTakeFirst();
    if (row.head === to.parent + 1 && last?.sign === made.sent.sign) return row.head;
    throw new Refused(
      'changed',
      `Revision ${row.head} of "${row.title}" was published meanwhile. Put yours together with it, then publish.`,
      { head: row.head },
    );
  }
  const number = row.head + 1;
  const at = Math.max(club.now(), row.changed + 1);
  const { title } = made.sent.document;
  const picture =
    made.pixels === undefined ? null : await keepImage(club, t, who.id, 'picture', made.pixels);
  await addRevision(club, t, who, {
    template: row.id,
    number,
    edition,
    ready: made,
    ...(to.suggestedBy === undefined ? {} : { suggestedBy: to.suggestedBy }),
  });
  await t
    .updateTable('template')
    .set({
      title,
      card: JSON.stringify(edition.card),
      kind: edition.card.kind ?? '',
      longest: edition.card.longest === undefined ? null : Math.round(edition.card.longest),
      picture,
      head: number,
      changed: at,
    })
    .where('club', '=', club.id)
    .where('id', '=', row.id)
    .execute();
  await letImageGo(club, t, row.picture);
  const words = findableWords({ title, card: edition.card, maker: who.id });
  await writeWords(t, club.id, row.id, at, row.hidden === 1 ? [] : words);
  return number;
}

/** Publishes a revision: taken only on top of the last one. */
export async function publishRevision(
  club: Club,
  who: Asker,
  template: string,
  asked: Edition & { readonly parent: number },
): Promise<{ id: string; revision: number }> {
  const made = await ready(asked);
  return club.database.write(async (t) => {
    const row = await templateFor(club, t, who, template);
    const revision = await nextRevision(club, t, who, row, {
      parent: asked.parent,
      edition: asked,
      ready: made,
    });
    return { id: template, revision };
  });
}

/** Takes a suggestion over as the next revision, as the maker's page put both together. */
export async function accept(
  club: Club,
  who: Asker,
  suggestion: string,
  asked: Edition & { readonly parent: number; readonly word: string },
): Promise<{ id: string; revision: number }> {
  const made = await ready(asked);
  return club.database.write(async (t) => {
    const found = await t
      .selectFrom('suggestion')
      .selectAll()
      .where('club', '=', club.id)
      .where('id', '=', suggestion)
      .executeTakeFirst();
    if (found === undefined) throw notThere('This suggestion');
    const row = await templateFor(club, t, who, found.template);
    if (row.maker !== who.id) throw notThere('This suggestion');
    if (found.state !== 'open') {
      throw new Refused('over', 'This suggestion was answered or taken back already.');
    }
    const revision = await nextRevision(club, t, who, row, {
      parent: asked.parent,
      edition: asked,
      ready: made,
      suggestedBy: found.by,
    });
    await t
      .updateTable('suggestion')
      .set({ state: 'accepted', word: asked.word, answered: club.now() })
      .where('club', '=', club.id)
      .where('id', '=', suggestion)
      .execute();
    return { id: row.id, revision };
  });
}

/** Sets what others may do with a template. */
export async function setLicence(
  club: Club,
  who: Asker,
  template: string,
  licence: Licence,
): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    refuseOthers(await templateFor(club, t, who, template), who);
    await t
      .updateTable('template')
      .set({ licence })
      .where('club', '=', club.id)
      .where('id', '=', template)
      .execute();
  });
  return DONE;
}

/** Takes a template off the shelf: its maker does, or a keeper. */
export async function takeOffShelf(club: Club, who: Asker, template: string): Promise<typeof DONE> {
  await club.database.write(async (t) => {
    const row = await templateFor(club, t, who, template);
    if (who.role !== 'keeper') refuseOthers(row, who);
    await takeTemplateOff(club, t, template);
  });
  return DONE;
}
