import { type BookDocument, saveText } from '@kerfbook/workbook';
import { forAnotherJob } from './another-job.ts';
import { besideBase } from './bases.ts';
import type { Bookcase } from './bookcase.ts';
import type { Done } from './bookcase-state.ts';
import { freeTitle, listBooks, titlesIn } from './filing.ts';
import { carrying, type Lineage, MOST_BYTES, madeFrom } from './lineage.ts';
import { shelfKey } from './shelf-port.ts';
import { signOf } from './sign.ts';
import { squeezed, unsqueezed } from './squeeze.ts';

/** A text as it came from a club, and its sign; nothing where it is damaged, or longer than any workbook. */
export async function shelfText(
  packed: string,
): Promise<{ readonly text: string; readonly sign: string } | undefined> {
  const text = await unsqueezed(packed, MOST_BYTES);
  return text === undefined ? undefined : { text, sign: signOf(text) };
}

/**
 * A workbook as it goes to the shelf, without what is the customer's and the job's own, and packed for its way; nothing
 * where the browser cannot pack.
 * @param lineage what it says that it came from
 */
export async function textForShelf(
  document: BookDocument,
  lineage: Lineage | undefined,
): Promise<
  { readonly document: BookDocument; readonly text: string; readonly packed: string } | undefined
> {
  const { terms: _terms, letterhead: _shop, lineage: _from, ...rest } = forAnotherJob(document);
  const { text: _carried, ...from } = lineage ?? { text: undefined };
  const bare = { ...rest, ...('template' in from ? { lineage: from as Lineage } : {}) };
  const text = saveText(bare);
  const packed = await squeezed(text);
  return packed === undefined ? undefined : { document: bare, text, packed };
}

/** A revision of a template of the shelf, as a workbook rests on it. */
export interface ShelfRevision {
  /** Its id on the shelf. */
  readonly template: string;
  /** What it is called there. */
  readonly title: string;
  /** Which revision, from 1. */
  readonly revision: number;
  /** Its saved text. */
  readonly text: string;
}

/** What a workbook says that rests on a revision; without its key where the template's id is too long for one. */
function restingOn({ template, title, revision, text }: ShelfRevision) {
  const key = shelfKey(template);
  const { lineage, base } = madeFrom(title, revision, key ?? '', text);
  const { key: _none, ...keyless } = lineage;
  return { lineage: key === undefined ? keyless : lineage, base };
}

/** Keeps a copy of a revision as a workbook of the maker's own that rests on it, and shows it. */
export async function addFromShelf(
  bookcase: Bookcase,
  document: BookDocument,
  from: ShelfRevision,
): Promise<Done> {
  const { lineage, base } = restingOn(from);
  const listing = await listBooks(bookcase).catch(() => undefined);
  const title = freeTitle(document.title, listing === undefined ? [] : titlesIn(listing));
  const origin = { kind: 'own', from: document.title, job: true } as const;
  return bookcase.add(saveText({ ...document, title, lineage }), title, origin, 'anyway', base);
}

/** A copy of a revision as a file: it rests on the revision, and brings it along. */
export async function copyForFile(
  document: BookDocument,
  from: ShelfRevision,
): Promise<BookDocument> {
  const { lineage } = restingOn(from);
  return { ...document, lineage: await carrying(lineage, from.text) };
}

/** Keeps the revision that the workbook at hand rests on from now on; answers what the workbook is to say of it. */
export async function restsOnShelf(bookcase: Bookcase, on: ShelfRevision): Promise<Lineage> {
  const { lineage, base } = restingOn(on);
  await bookcase.store.setAll(besideBase(bookcase.current.id, base));
  return lineage;
}
