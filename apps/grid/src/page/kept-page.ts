import type { Bookcase } from '@kerfbook/keeping';
import { useEffect, useState } from 'react';
import { ACTIVITIES, type PageName } from './activity.ts';

const KEY = 'page';

/** What was on when this device last showed the workbook that is open: its name, or nothing for the workbook itself. */
export async function readPage({ store, current }: Bookcase): Promise<PageName | undefined> {
  // Where it cannot be read the workbook comes, as it does for the first time.
  const kept: unknown = await store.get(KEY).catch(() => undefined);
  if (typeof kept !== 'object' || kept === null) return undefined;
  const { book, page } = kept as { readonly book?: unknown; readonly page?: unknown };
  if ((page === 'days' || page === 'charts') && book === current.id) return page;
  const found = ACTIVITIES.find(([activity]) => activity === page)?.[0];
  return book === current.id && found !== 'workbook' ? found : undefined;
}

/** What is on; kept on this device together with whose it is, so that who comes back finds it as it was. */
export function useKeptPage(
  { store, current }: Bookcase,
  first: PageName | undefined,
): readonly [PageName | undefined, (page: PageName | undefined) => void] {
  const [page, setPage] = useState(first);
  const { id } = current;
  useEffect(() => {
    // To find it again is a convenience: where it cannot be kept, nothing is lost worth a sentence.
    store.set(KEY, { book: id, page }).catch(() => undefined);
  }, [store, id, page]);
  return [page, setPage];
}
