import { type BookDocument, type Listed, listed, Workbook } from '@kerfbook/workbook';
import { breath } from './breath.ts';

/** As many as a revision tells of; what is beyond is told as a number. */
const MOST_CHANGES = 500;
/** Longest measure a club takes, mm: beyond, filters do not go by it. */
const LONGEST = 100_000;
/** Letters that a workbook has room for to say whose it is. */
const LONGEST_AUTHOR = 120;

/** What a workbook says of itself in short, as `bookCard` of the drawing tells it. */
interface Facts {
  readonly about?: string;
  readonly size?: string;
  readonly woods: readonly string[];
  readonly joints: readonly string[];
  readonly tags: readonly string[];
  readonly results: readonly (readonly [says: string, shown: string])[];
  /** Longest measure of what is drawn, mm. */
  readonly longest?: number;
}

/**
 * What a template says of itself on the shelf, cut to what a club takes.
 * @param kind what is being built; `''` where nobody said
 */
export function cardForShelf(facts: Facts, kind: string) {
  const { longest } = facts;
  const about = facts.about === undefined ? undefined : cut(facts.about, 400);
  const size = facts.size === undefined ? undefined : cutLine(facts.size, 80);
  const built = cutLine(kind, 40);
  return {
    ...(about === undefined ? {} : { about }),
    ...(built === undefined ? {} : { kind: built }),
    ...(size === undefined ? {} : { size }),
    ...(longest === undefined || longest > LONGEST ? {} : { longest }),
    woods: linesOf(facts.woods, 60),
    joints: linesOf(facts.joints, 60),
    tags: linesOf(facts.tags, 30),
    results: facts.results
      .flatMap(([says, shown]): [string, string][] => {
        const [one, other] = [cutLine(says, 80), cutLine(shown, 80)];
        return one === undefined || other === undefined ? [] : [[one, other]];
      })
      .slice(0, 8),
  };
}

const linesOf = (all: readonly string[], most: number): string[] =>
  all.flatMap((one) => cutLine(one, most) ?? []).slice(0, 12);

/** What differs between two states, for lists and for a club. */
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

/** What differs, as a revision tells of it. */
function changesOf(all: readonly Listed[]) {
  const told = all.length > MOST_CHANGES ? all.slice(0, MOST_CHANGES - 1) : all;
  const changes = told.map(({ sheet, what, before, after }) => ({
    sheet: cut(sheet, 80),
    what: cut(what, 300),
    before: cut(before, 2_000),
    after: cut(after, 2_000),
  }));
  if (told === all) return changes;
  const left = all.length - told.length;
  return [...changes, { sheet: '', what: `And ${left} more`, before: '', after: '' }];
}

/** Words as a club takes them: no control characters, no halves of letters, and no longer than they may be. */
export function cut(words: string, most: number): string {
  const plain = words.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]|\p{Cs}/gu, ' ');
  if (plain.length <= most) return plain;
  // Not through the middle of a letter that takes two places.
  return `${plain.slice(0, most - 1).replace(/\p{Cs}$/u, '')}…`;
}

/** The same on one line; nothing where nothing is left. */
export function cutLine(words: string, most: number): string | undefined {
  const line = cut(words.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ').trim(), most);
  return line === '' ? undefined : line;
}

/** A workbook under the name of the template that it goes back to: whose that is and its license stay as they are. */
export function signedAs(document: BookDocument, { title, author, licence }: BookDocument) {
  const { author: _who, licence: _under, ...rest } = document;
  return {
    ...rest,
    title,
    ...(author === undefined ? {} : { author }),
    ...(licence === undefined ? {} : { licence }),
  };
}

/**
 * A workbook as a template of its own.
 * @param by whoever publishes; who made what it was made from stays named, as open licenses ask for
 * @param licence as the club calls it; the workbook says it by its SPDX identifier, where it has one
 */
export function signedBy(
  document: BookDocument,
  { by, title, licence }: { readonly by: string; readonly title: string; readonly licence: string },
): BookDocument {
  return {
    ...document,
    title,
    author: authorOf(by, document),
    licence: licence === 'club' ? 'For a club alone' : licence.toUpperCase(),
  };
}

function authorOf(by: string, { author }: BookDocument): string {
  if (author === undefined || author.startsWith(by)) return author ?? by;
  return cut(`${by}, from work by ${author}`, LONGEST_AUTHOR);
}
