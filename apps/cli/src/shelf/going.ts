import { shelfId } from '@kerfbook/keeping';
import { textForShelf } from '@kerfbook/keeping/shelf';
import { type AnswerOf, MOST_PACKED } from '@kerfbook/protocol';
import type { BookDocument } from '@kerfbook/workbook';
import { Misuse } from '../arguments.ts';
import type { Io } from '../io.ts';
import { readBook } from '../open.ts';
import { type Club, Stopped } from './club.ts';

const MOST_NOTE = 2_000;

/** A workbook that is to go to the shelf. */
export interface Going {
  readonly path: string;
  readonly document: BookDocument;
}

/** The one workbook that a command was given. */
export async function goingFrom(
  word: string,
  positionals: readonly string[],
  io: Io,
): Promise<Going> {
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) {
    throw new Misuse(`${word} takes one workbook. It got ${positionals.length}.`);
  }
  const read = await readBook(path, io);
  if (!read.ok) throw new Stopped(2, read.says);
  return { path, document: read.document };
}

/** What the maker says of it. */
export function noteOf(text = ''): string {
  const note = text.trim();
  if (note.length <= MOST_NOTE) return note;
  throw new Misuse(`--note takes at most 2,000 letters. It got ${note.length}.`);
}

/** A template of the club, as it stands. */
export const toldOf = (club: Club, id: string): Promise<AnswerOf<'template'>> =>
  club.ask('template', { params: { template: id } });

/** The revision of a template that a workbook was made from: as it says itself, or else as its maker says. */
export function restsOn(
  { path, document }: Going,
  { template }: AnswerOf<'template'>,
  from: number | undefined,
): number {
  const { lineage } = document;
  if (lineage !== undefined && shelfId(lineage.key) === template.id) {
    if (from === undefined || from === lineage.revision) return lineage.revision;
    throw new Misuse(
      `${path} says itself that it was made from revision ${lineage.revision}. Leave --from away.`,
    );
  }
  if (from !== undefined) return from;
  throw new Misuse(
    `${path} does not say which revision of "${template.title}" it was made from. Say it with --from; the shelf has revision ${template.revision}.`,
  );
}

/** A workbook as it goes to the shelf, packed for its way. */
export async function packedFor(
  path: string,
  document: BookDocument,
  lineage: BookDocument['lineage'],
): Promise<NonNullable<Awaited<ReturnType<typeof textForShelf>>>> {
  const made = await textForShelf(document, lineage);
  if (made === undefined) {
    throw new Stopped(2, 'This Node.js cannot pack a workbook for its way. Use 20.19 or newer.');
  }
  if (made.packed.length <= MOST_PACKED) return made;
  throw new Stopped(
    1,
    `${path} is larger than a club takes, packed for its way: ${made.packed.length} letters of at most ${MOST_PACKED}.`,
  );
}
