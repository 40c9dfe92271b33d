import { type Bookcase, shelfId } from '@kerfbook/keeping';
import { differing, signedAs, textForShelf } from '@kerfbook/keeping/shelf';
import { type AnswerOf, ClubRefused } from '@kerfbook/protocol';
import { type BookDocument, type Listed, loadText } from '@kerfbook/workbook';
import { restedOn } from './edition.ts';
import { askClub, lookHere, Told } from './here.ts';

type Lineage = NonNullable<BookDocument['lineage']>;

/** A workbook that rests on a template of the shelf. */
export interface Resting {
  readonly told: AnswerOf<'template'>;
  readonly lineage: Lineage;
  /** The revision that it rests on. */
  readonly base: BookDocument;
  /** What it has otherwise than that. */
  readonly differs: readonly Listed[];
}

/** How the workbook at hand stands to the shelf. */
export type StandingOnShelf =
  /** It is on no shelf yet; `gone`: the template that it came from is not there any more. */
  | { readonly is: 'new'; readonly gone?: string }
  /** The template is the maker's own: the next revision is published, or first what is new is brought in. */
  | (Resting & { readonly is: 'mine' })
  /** It came from another member's template. */
  | (Resting & { readonly is: 'others' });

/**
 * Looks how a workbook stands to the shelf.
 * @throws ClubRefused or Told, with a sentence for the person
 */
export async function standingOf(
  bookcase: Bookcase,
  document: BookDocument,
): Promise<StandingOnShelf> {
  await lookHere();
  const { lineage } = document;
  const id = shelfId(lineage?.key);
  if (id === undefined || lineage === undefined) return { is: 'new' };
  const told = await askClub('template', { params: { template: id } }).catch((error: unknown) => {
    if (error instanceof ClubRefused && error.code === 'notThere') return undefined;
    throw error;
  });
  if (told === undefined) return { is: 'new', gone: lineage.template };
  const loaded = loadText(await restedOn(bookcase, id, lineage));
  if (!loaded.ok) throw new Told(loaded.says);
  const base = loaded.document;
  const bare = await textForShelf(signedAs(document, base), base.lineage);
  const { listed } = await differing(base, bare?.document ?? document);
  return { is: told.mine ? 'mine' : 'others', told, lineage, base, differs: listed };
}
