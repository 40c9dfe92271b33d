import { bookCard } from '@kerfbook/drawing';
import { type Bookcase, breath } from '@kerfbook/keeping';
import { baseText, cardForShelf, textForShelf } from '@kerfbook/keeping/shelf';
import type { Card } from '@kerfbook/protocol';
import { type BookDocument, Workbook } from '@kerfbook/workbook';
import { pngOf } from './card-picture.ts';
import { Told } from './here.ts';
import { revisionOf } from './revisions-read.ts';

/** What a workbook is published with, all of it worked out on this device. */
export interface Edition {
  /** As it lies on the shelf, saved: what the workbook rests on afterwards. */
  readonly saved: string;
  readonly text: string;
  readonly card: Card;
  readonly picture?: string;
}

type Lineage = NonNullable<BookDocument['lineage']>;

/**
 * Makes what goes to the shelf of a workbook.
 * @param lineage what it came from, as the shelf tells it
 * @throws Told where this browser cannot pack it
 */
export async function editionOf(
  document: BookDocument,
  lineage: Lineage | undefined,
  kind: string,
): Promise<Edition> {
  const made = await textForShelf(document, lineage);
  if (made === undefined) {
    throw new Told('This browser cannot pack a workbook for its way. Use a newer one to publish.');
  }
  await breath();
  const { card, longest, picture } = bookCard(Workbook.open(made.document));
  const png = picture === undefined ? undefined : await pngOf(picture);
  return {
    saved: made.text,
    text: made.packed,
    card: cardForShelf(longest === undefined ? card : { ...card, longest }, kind),
    ...(png === undefined ? {} : { picture: png }),
  };
}

/** The state that a workbook rests on: from this device, else from the shelf. */
export async function restedOn(
  bookcase: Bookcase,
  template: string,
  { base, revision }: Lineage,
): Promise<string> {
  const kept = base === undefined ? undefined : await baseText(bookcase, base);
  return kept ?? (await revisionOf(template, revision)).text;
}
