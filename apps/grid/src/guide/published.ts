import { signOf, squeezed, unsqueezed } from '@kerfbook/keeping/shelf';
import {
  type BookDocument,
  type Compared,
  compared,
  type Guide,
  LIMITS,
  loadText,
  type OpenWorkbook,
  saveText,
} from '@kerfbook/workbook';

type Published = NonNullable<Guide['published']>;

/** The state of a workbook that is handed out now; nothing where this browser cannot pack it. */
export async function publishedNow(
  book: OpenWorkbook,
  day: string,
): Promise<Published | undefined> {
  const text = await squeezed(saveText(handed(book.document())));
  if (text === undefined) return undefined;
  return { number: (book.head.guide?.published?.number ?? 0) + 1, day, text };
}

/** What differs now from the plan that was handed out last, or why that cannot be told. */
export async function sinceHandedOut(
  book: OpenWorkbook,
  { number, text }: Published,
): Promise<
  { readonly ok: true; readonly compared: Compared } | { readonly ok: false; readonly says: string }
> {
  const saved = await unsqueezed(text, LIMITS.book);
  const loaded = saved === undefined ? undefined : loadText(saved);
  if (loaded?.ok !== true) {
    return {
      ok: false,
      says: `The plan handed out as number ${number} is kept in a way that cannot be read here. What differs from it cannot be told; handing out anew starts afresh.`,
    };
  }
  const [before, after] = [loaded.document, handed(book.document())];
  return { ok: true, compared: compared(before, after) };
}

/**
 * A workbook as it is remembered for comparing: without what was handed out before it, and with a sign in the place of
 * each photograph, whose bytes would be kept twice.
 */
function handed(document: BookDocument): BookDocument {
  const { guide, photos, ...rest } = document;
  const { published: _, ...said } = guide ?? {};
  const signs = Object.entries(photos ?? {}).map(([name, photo]) => {
    const data = `data:image/jpeg;base64,${btoa(signOf(photo.data))}`;
    return [name, { ...photo, data }] as const;
  });
  return {
    ...rest,
    ...(Object.keys(said).length === 0 ? {} : { guide: said }),
    ...(signs.length === 0 ? {} : { photos: Object.fromEntries(signs) }),
  };
}
