import {
  type BookDocument,
  joinBooks,
  loadText,
  type Refused,
  type Told,
  Workbook,
} from '@kerfbook/workbook';
import type { Bookcase } from './bookcase.ts';
import { type FileCopy, fileCopy, templateCopy } from './filing.ts';

/** A workbook whose sheets may come into the one at hand. */
export type JoinSource =
  /** One that ships, by its key: the maker's changed copy where there is one. */
  | { readonly template: string }
  /** One of the maker's own, by its id. */
  | { readonly own: string };

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
  const copy = await copyOf(bookcase, source);
  if (copy === undefined) return { ok: false, says: GONE };
  if (copy.says !== undefined) return { ok: false, says: copy.says };
  const loaded = loadText(copy.text);
  if (!loaded.ok) return { ok: false, says: loaded.says };
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

async function copyOf(bookcase: Bookcase, source: JoinSource): Promise<FileCopy | undefined> {
  if ('own' in source) return fileCopy(bookcase, source.own);
  return templateCopy(bookcase, source.template);
}

function inUnits(
  document: BookDocument,
  units: BookDocument['units'],
): { readonly ok: true; readonly document: BookDocument } | Refused {
  if (document.units === units) return { ok: true, document };
  const book = Workbook.open(document);
  const turned = book.apply({ do: 'changeUnits', to: units });
  return turned.ok ? { ok: true, document: book.document() } : turned;
}

/** Rows of the sheets that are there in `of`. */
function rowsIn(document: BookDocument, of: BookDocument): number {
  const ids = new Set(of.sheets.map(({ id }) => id));
  return document.sheets.reduce((sum, { id, rows }) => sum + (ids.has(id) ? rows.length : 0), 0);
}
