import {
  type BookDocument,
  type Exchanged,
  exchanged,
  inUnits,
  type JoinStep,
  joinBooks,
  loadText,
  saveText,
  type Told,
} from '@kerfbook/workbook';
import type { Bookcase } from './bookcase.ts';
import { type FileCopy, fileCopy, templateCopy } from './filing.ts';

/** A workbook whose sheets may come into the one at hand. */
export type JoinSource =
  /** One that ships, by its key: the maker's changed copy where there is one. */
  | { readonly template: string }
  /** One of the maker's own, by its id. */
  | { readonly own: string }
  /** One that is kept nowhere yet, as its saved text. */
  | { readonly text: string };

/** What another workbook would bring, before it does. */
export type JoinOffer =
  | {
      readonly ok: true;
      /** The workbook at hand with the sheets that come: an edit `become` makes it so. */
      readonly document: BookDocument;
      /** What the sheets are called there, in their order. */
      readonly sheets: readonly string[];
      /** Rows that come into tables that are there. */
      readonly rows: number;
      /** What follows what, what is called otherwise then, and what stands twice. */
      readonly told: readonly Told[];
    }
  | { readonly ok: false; readonly says: string };

const GONE = 'That workbook is not on this device any more.';

/**
 * What comes of putting another workbook's sheets into one: nothing is changed yet. One that counts in
 * other units is turned into those of the workbook it comes into.
 */
export async function joinOffer(
  bookcase: Bookcase,
  source: JoinSource,
  into: BookDocument,
): Promise<JoinOffer> {
  const loaded = await documentOf(bookcase, source);
  if (!loaded.ok) return loaded;
  const from = inUnits(loaded.document, into.units);
  if (!from.ok) return { ok: false, says: from.says };
  const joined = joinBooks(into, from.document);
  if (!joined.ok) return { ok: false, says: joined.says };
  const { document, told } = joined;
  const titles = new Map(document.sheets.map(({ id, name }) => [id, name]));
  const rows = rowsIn(document, into) - rowsIn(into, into);
  return {
    ok: true,
    document,
    sheets: joined.sheets.map((id) => titles.get(id) ?? id),
    rows,
    told,
  };
}

async function documentOf(
  bookcase: Bookcase,
  source: JoinSource,
): Promise<
  | { readonly ok: true; readonly document: BookDocument }
  | { readonly ok: false; readonly says: string }
> {
  if ('text' in source) return loadText(source.text);
  const copy = await copyOf(bookcase, source);
  if (copy === undefined) return { ok: false, says: GONE };
  if (copy.says !== undefined) return { ok: false, says: copy.says };
  return loadText(copy.text);
}

async function copyOf(
  bookcase: Bookcase,
  source: Exclude<JoinSource, { readonly text: string }>,
): Promise<FileCopy | undefined> {
  if ('own' in source) return fileCopy(bookcase, source.own);
  return templateCopy(bookcase, source.template);
}

/** Rows of the sheets that are there in `of`. */
function rowsIn(document: BookDocument, of: BookDocument): number {
  const ids = new Set(of.sheets.map(({ id }) => id));
  return document.sheets.reduce((sum, { id, rows }) => sum + (ids.has(id) ? rows.length : 0), 0);
}

/** Sheets that came into the workbook at hand before, of which something is there. */
export interface CameIn {
  /** What the workbook is called that they came from. */
  readonly title: string;
  /** What they are called here; none where only rows of tables came. */
  readonly sheets: readonly string[];
  /** As it was before and after. */
  readonly step: JoinStep;
}

/** So many are known of one workbook; of more, the first are forgotten. */
const MOST_JOINS = 8;

const joinsKey = (id: string): string => `joins:${id}`;

interface KeptJoin {
  readonly title: string;
  readonly before: string;
  readonly after: string;
}

async function keptJoins({ store, current }: Bookcase): Promise<readonly KeptJoin[]> {
  const kept = await store.get(joinsKey(current.id));
  return Array.isArray(kept) ? kept.filter(isKeptJoin) : [];
}

const isKeptJoin = (one: unknown): one is KeptJoin =>
  typeof one === 'object' &&
  one !== null &&
  ['title', 'before', 'after'].every((key) => typeof Reflect.get(one, key) === 'string');

/**
 * Keeps beside the workbook at hand what it was before and after sheets came in, so that others can take their place.
 * What came in before stays known: undone, an exchange can be made again.
 */
export async function keepJoin(bookcase: Bookcase, title: string, step: JoinStep): Promise<void> {
  const kept = await keptJoins(bookcase);
  const next = { title, before: saveText(step.before), after: saveText(step.after) };
  await bookcase.store.set(joinsKey(bookcase.current.id), [...kept, next].slice(-MOST_JOINS));
}

/** What came into the workbook at hand, the last first; what cannot be read is left out. */
export async function joinsOf(bookcase: Bookcase): Promise<readonly CameIn[]> {
  const here = bookcase.current.book.document();
  const found = (await keptJoins(bookcase)).flatMap((one): CameIn[] => {
    const [before, after] = [loadText(one.before), loadText(one.after)];
    if (!before.ok || !after.ok) return [];
    const step = { before: before.document, after: after.document };
    const came = cameIn(step, here);
    return came === undefined ? [] : [{ title: one.title, sheets: came, step }];
  });
  return found.reverse();
}

/** Names of the sheets of a step that are there; nothing where neither those nor rows of it are. */
function cameIn({ before, after }: JoinStep, here: BookDocument): readonly string[] | undefined {
  const was = new Map(before.sheets.map(({ id, rows }) => [id, new Set(rows.map((r) => r.id))]));
  const now = new Map(here.sheets.map((sheet) => [sheet.id, sheet]));
  const names: string[] = [];
  let isThere = false;
  for (const { id, rows } of after.sheets) {
    const [old, sheet] = [was.get(id), now.get(id)];
    if (sheet === undefined) continue;
    if (old === undefined) {
      names.push(sheet.name);
      isThere = true;
      continue;
    }
    const ids = new Set(sheet.rows.map((row) => row.id));
    isThere ||= rows.some((row) => !old.has(row.id) && ids.has(row.id));
  }
  return isThere ? names : undefined;
}

/** What exchanging sheets would do, before it does. */
export type ExchangeOffer =
  | (Omit<Exchanged, 'sheets'> & {
      /** What the sheets that come are called, in their order. */
      readonly sheets: readonly string[];
      /** Rows that come into tables that are there. */
      readonly rows: number;
    })
  | { readonly ok: false; readonly says: string };

/** What comes of putting another workbook's sheets in the place of some that came in before: nothing is changed yet. */
export async function exchangeOffer(
  bookcase: Bookcase,
  source: JoinSource,
  { step }: CameIn,
  mine: BookDocument,
): Promise<ExchangeOffer> {
  const loaded = await documentOf(bookcase, source);
  if (!loaded.ok) return loaded;
  const done = exchanged(step, mine, loaded.document);
  if (!done.ok) return done;
  const titles = new Map(done.document.sheets.map(({ id, name }) => [id, name]));
  const { before, after } = done.step;
  return {
    ...done,
    sheets: done.sheets.map((id) => titles.get(id) ?? id),
    rows: rowsIn(after, before) - rowsIn(before, before),
  };
}
