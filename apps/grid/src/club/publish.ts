import type { Bookcase } from '@kerfbook/keeping';
import { differing, restsOnShelf, signedAs, signedBy, textForShelf } from '@kerfbook/keeping/shelf';
import type { Licence } from '@kerfbook/protocol';
import type { BookDocument } from '@kerfbook/workbook';
import type { Session } from '../session/session.ts';
import { editionOf } from './edition.ts';
import { askClub, Told } from './here.ts';
import type { Resting, StandingOnShelf } from './standing.ts';

/** What a maker says of what he publishes. */
export interface Said {
  /** Whoever publishes. */
  readonly by: string;
  readonly title: string;
  readonly note: string;
  readonly kind: string;
  readonly licence: Licence;
}

/** What was done, for the sentence that tells of it. */
export interface Published {
  readonly template: string;
  readonly title: string;
  readonly revision: number;
}

/** Where a workbook goes to the shelf from. */
export interface From {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly document: BookDocument;
}

/**
 * Publishes a workbook as a template of its own. From then on it rests on that.
 * @param id of the template: sent again it is the same one
 * @throws ClubRefused or Told, with a sentence for the person
 */
export async function publishNew(
  from: From,
  id: string,
  said: Said,
  standing: StandingOnShelf,
): Promise<Published> {
  const document = signedBy(from.document, said);
  const edition = await editionOf(document, document.lineage, said.kind);
  const { saved, ...sent } = edition;
  const origin =
    standing.is === 'others'
      ? { from: { id: standing.told.template.id, revision: standing.lineage.revision } }
      : {};
  const done = await askClub('publish', {
    body: { id, ...sent, note: said.note, changes: [], licence: said.licence, ...origin },
  });
  return noted(from, said.title, saved, done);
}

/**
 * Publishes the next revision of the maker's own template.
 * @throws ClubRefused, as `changed` where another revision stands there meanwhile
 */
export async function publishNext(
  from: From,
  { told, base, lineage }: Resting,
  said: Said,
): Promise<Published> {
  const template = told.template.id;
  const document = { ...signedAs(from.document, base), title: said.title };
  const made = await textForShelf(document, base.lineage);
  const edition = await editionOf(document, base.lineage, said.kind);
  const { changes } = await differing(base, made?.document ?? document);
  const { saved, ...sent } = edition;
  const done = await askClub('publishRevision', {
    params: { template },
    body: { parent: lineage.revision, ...sent, note: said.note, changes },
  });
  return noted(from, said.title, saved, done);
}

/**
 * Suggests to the maker of a template what the workbook has otherwise.
 * @param id of the suggestion: sent again it is the same one
 */
export async function suggest(
  { document }: From,
  id: string,
  { told, base, lineage }: Resting,
  note: string,
): Promise<void> {
  const made = await textForShelf(signedAs(document, base), base.lineage);
  if (made === undefined) {
    throw new Told('This browser cannot pack a workbook for its way. Use a newer one to suggest.');
  }
  const { changes } = await differing(base, made.document);
  await askClub('suggest', {
    params: { template: told.template.id },
    body: { id, base: lineage.revision, text: made.packed, note, changes },
  });
}

/** Notes in the workbook which revision it rests on now, so that what comes later finds its way there. */
async function noted(
  { session, bookcase, document }: From,
  title: string,
  text: string,
  { id, revision }: { readonly id: string; readonly revision: number },
): Promise<Published> {
  const lineage = await restsOnShelf(bookcase, { template: id, title, revision, text });
  const said = `Published "${title}" on the shelf as revision ${revision}.`;
  const done = session.apply({ do: 'setBook', set: { lineage } }, said);
  if (!done.ok) {
    bookcase.notice(
      `"${document.title}" is on the shelf, but the workbook could not note it: ${done.says}`,
    );
  }
  return { template: id, title, revision };
}
