import { bookCard, buildScene, readParts } from '@kerfbook/drawing';
import { type Bookcase, breath } from '@kerfbook/keeping';
import { baseText, textForShelf } from '@kerfbook/keeping/shelf';
import type { Card } from '@kerfbook/protocol';
import { type BookDocument, type Listed, listed, Workbook } from '@kerfbook/workbook';
import { pngOf } from './card-picture.ts';
import { Told } from './here.ts';
import { revisionOf } from './revisions-read.ts';
import { changesOf, cut, cutLine } from './words.ts';

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
  const book = Workbook.open(made.document);
  const { card, picture } = bookCard(book);
  const { extents } = buildScene(readParts(book).parts);
  const longest =
    extents === undefined
      ? undefined
      : Math.max(
          ...(['x', 'y', 'z'] as const).map((axis) => extents.to[axis] - extents.from[axis]),
        );
  const png = picture === undefined ? undefined : await pngOf(picture);
  const about = card.about === undefined ? undefined : cut(card.about, 400);
  const size = card.size === undefined ? undefined : cutLine(card.size, 80);
  return {
    saved: made.text,
    text: made.packed,
    card: {
      ...(about === undefined ? {} : { about }),
      ...(kind === '' ? {} : { kind }),
      ...(size === undefined ? {} : { size }),
      ...(longest === undefined || longest > 100_000 ? {} : { longest }),
      woods: linesOf(card.woods, 60),
      joints: linesOf(card.joints, 60),
      tags: linesOf(card.tags, 30),
      results: card.results
        .flatMap(([says, shown]): [string, string][] => {
          const [one, other] = [cutLine(says, 80), cutLine(shown, 80)];
          return one === undefined || other === undefined ? [] : [[one, other]];
        })
        .slice(0, 8),
    },
    ...(png === undefined ? {} : { picture: png }),
  };
}

const linesOf = (all: readonly string[], most: number): string[] =>
  all.flatMap((one) => cutLine(one, most) ?? []).slice(0, 12);

/** What differs between two states, for lists and for the club. */
export async function differing(
  before: BookDocument,
  after: BookDocument,
): Promise<{ readonly listed: readonly Listed[]; readonly changes: ReturnType<typeof changesOf> }> {
  await breath();
  const { locked: _one, lineage: _from, ...was } = before;
  const { locked: _other, lineage: _of, ...is } = after;
  const all = listed({ before: Workbook.open(was), after: Workbook.open(is) });
  return { listed: all, changes: changesOf(all) };
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
