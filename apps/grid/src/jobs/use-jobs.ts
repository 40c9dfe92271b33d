import { type Bookcase, type BookHead, type Listing, writeTrouble } from '@kerfbook/keeping';
import { type KeptJobs, keptJobs, listBooks, sentOf } from '@kerfbook/keeping/shelf';
import {
  useCallback,
  useEffect,
  useLayoutEffect,
  useMemo,
  useState,
  useSyncExternalStore,
} from 'react';
import { CardDesk } from '../gallery/card-desk.ts';
import { cardPrice } from '../gallery/card-price.ts';
import type { JobLine } from './job-list.ts';

/** The jobs on this device. */
export interface Jobs {
  /** Left out while they are read. */
  readonly lines: readonly JobLine[] | undefined;
  /** Workbooks that are no jobs, and could be made some. */
  readonly others: readonly BookHead[];
  /** Workbooks that could not be read. */
  readonly unread: readonly BookHead[];
  readonly says: string | undefined;
  /** Reads them again. */
  readonly refresh: () => Promise<void>;
}

/** What was read of them, with what receipts say was paid. */
type Found = KeptJobs & Pick<Listing, 'own'> & { readonly paid: ReadonlyMap<string, number> };

/** What the receipts kept on this device say was paid for each job that has any. */
async function paidFor(
  { store }: Bookcase,
  { jobs }: KeptJobs,
): Promise<ReadonlyMap<string, number>> {
  const paid = new Map<string, number>();
  for (const { head } of jobs) {
    for (const { kind, paid: amount } of await sentOf(store, head.id)) {
      if (kind !== 'receipt' || amount === undefined) continue;
      paid.set(head.id, (paid.get(head.id) ?? 0) + amount);
    }
  }
  return paid;
}

/**
 * Reads the jobs from what is kept; their prices are those that were worked out last, and worked out anew in a worker
 * where the workbook was changed since.
 * @param changes grows with every change of the workbook at hand
 */
export function useJobs(bookcase: Bookcase, changes: number): Jobs {
  const [found, setFound] = useState<Found>();
  const [says, setSays] = useState<string>();
  const refresh = useCallback(async () => {
    try {
      await bookcase.fold();
      const { own } = await listBooks(bookcase);
      const kept = await keptJobs(bookcase, own);
      setFound({ own, ...kept, paid: await paidFor(bookcase, kept) });
      setSays(undefined);
    } catch (error) {
      setSays(`The jobs could not be read: ${writeTrouble(error)}`);
    }
  }, [bookcase]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook at hand changes within
  useEffect(() => void refresh(), [refresh, changes]);
  const [desk, setDesk] = useState<CardDesk>();
  useLayoutEffect(() => {
    const made = new CardDesk(bookcase);
    setDesk(made);
    return () => made.close();
  }, [bookcase]);
  const version = useSyncExternalStore(
    useCallback((watcher: () => void) => desk?.watch(watcher) ?? (() => undefined), [desk]),
    () => desk?.version() ?? 0,
  );
  const { current } = bookcase;
  useEffect(() => {
    const away = found?.jobs.filter(({ head }) => head.id !== current.id);
    desk?.rest(away?.map(({ head }) => head) ?? []);
  }, [desk, found, current]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the desk comes to know more of them
  const lines = useMemo(
    () =>
      found?.jobs.map(({ head, facts }): JobLine => {
        const here = head.id === current.id;
        const price = here ? cardPrice(current.book) : desk?.card(head.id)?.price;
        return {
          id: head.id,
          title: head.title,
          updated: head.updated,
          facts,
          here,
          ...(found.paid.has(head.id) ? { paid: found.paid.get(head.id) ?? 0 } : {}),
          isOld: !here && desk?.isOfNow(head) !== true,
          ...(price === undefined ? {} : { price }),
        };
      }),
    [found, desk, version, current],
  );
  const isJob = new Set(found?.jobs.map(({ head }) => head.id));
  const isUnread = new Set(found?.unread.map(({ id }) => id));
  return {
    lines,
    others: found?.own.filter(({ id }) => !isJob.has(id) && !isUnread.has(id)) ?? [],
    unread: found?.unread ?? [],
    says,
    refresh,
  };
}
