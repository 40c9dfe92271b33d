import type { BookStore } from './book-store.ts';
import { headOf } from './records.ts';

const MARK = 'shop:';
/** Under which a workbook bears the mark; it goes where the workbook goes. */
export const markKey = (id: string): string => `${MARK}${id}`;
/** Every mark there is; more than one only where two tabs set them at once. */
export const markKeys = (store: BookStore): Promise<readonly string[]> => store.keys(MARK);

/** Which workbook is the shop's; nothing where none is, or it lies in the trash. */
export async function shopsId(store: BookStore): Promise<string | undefined> {
  const [key] = await markKeys(store);
  if (key === undefined) return undefined;
  const id = key.slice(MARK.length);
  const kept = await store.read(id);
  return kept === undefined || headOf(kept.record).deleted !== undefined ? undefined : id;
}
