import { type BookDocument, loadText } from '@kerfbook/workbook';
import type { Bookcase } from './bookcase.ts';
import { fileCopy } from './filing.ts';
import { shelfId } from './shelf-port.ts';
import { NO_TEMPLATE } from './trouble.ts';

/** What can be compared: the workbook at hand, one of its versions, one of the maker's own, a template. */
export type CompareSource =
  | { readonly of: 'now' }
  | { readonly of: 'version'; readonly key: string }
  | { readonly of: 'own'; readonly id: string }
  | { readonly of: 'template'; readonly key: string }
  /** A template of the club's shelf as it is now, by the key that a workbook's lineage knows it by. */
  | { readonly of: 'shelf'; readonly key: string };

const GONE = {
  now: '',
  version: 'That version is not on this device any more.',
  own: 'That workbook is not on this device any more.',
  template: NO_TEMPLATE,
  shelf: 'The club cannot be reached, or the template is not on its shelf any more.',
};

/** A workbook to be compared as it is now; a template as it is built in, whatever was made of it. */
export async function documentToCompare(
  bookcase: Bookcase,
  source: CompareSource,
): Promise<
  | { readonly ok: true; readonly document: BookDocument }
  | { readonly ok: false; readonly says: string }
> {
  if (source.of === 'now') return { ok: true, document: bookcase.current.book.document() };
  const found = await textOf(bookcase, source);
  if (found === undefined) return { ok: false, says: GONE[source.of] };
  if (typeof found !== 'string') return { ok: false, says: found.says };
  const loaded = loadText(found);
  return loaded.ok ? loaded : { ok: false, says: loaded.says };
}

async function textOf(
  bookcase: Bookcase,
  source: Exclude<CompareSource, { readonly of: 'now' }>,
): Promise<string | { readonly says: string } | undefined> {
  switch (source.of) {
    case 'version':
      return bookcase.versions.text(source.key).catch(() => undefined);
    case 'template':
      return bookcase.templates
        .find(({ key }) => key === source.key)
        ?.text()
        .catch(() => undefined);
    case 'shelf': {
      const there = bookcase.shelf?.now(shelfId(source.key) ?? '');
      return there?.then(({ text }) => text()).catch(() => undefined);
    }
    case 'own': {
      const copy = await fileCopy(bookcase, source.id);
      return copy?.says === undefined ? copy?.text : { says: copy.says };
    }
  }
}
