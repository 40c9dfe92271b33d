import { type Asker, SharedAsker, StudyFault } from '@kerfbook/studies';
import type { Workbook } from '@kerfbook/workbook';
import { SweepFailed } from '@kerfbook/workbook/sweep';
import { Misuse } from './arguments.ts';
import type { Io } from './io.ts';

/** Reads what is asked; a fault of a study is a misuse of the command. */
export function asked<T>(read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (error instanceof StudyFault) throw new Misuse(error.message);
    throw error;
  }
}

/** How a question is waited for at a terminal. */
export interface Waited {
  readonly signal: AbortSignal;
}

/** Sets from which on it is worth starting another thread. */
const WORTH_ONE_MORE = 500;

/**
 * Asks in threads of their own, each with the workbook open, as long as nobody interrupts; undefined where that failed,
 * with its sentence told.
 *
 * @throws Misuse for a question that cannot be asked
 */
export async function asking<T>(
  book: Workbook,
  io: Io,
  sets: number,
  work: (asker: Asker, waited: Waited) => Promise<T>,
): Promise<{ readonly result: T; readonly stopped: boolean } | undefined> {
  const count = Math.max(1, Math.min(io.threads, Math.ceil(sets / WORTH_ONE_MORE)));
  const threads = Array.from({ length: count }, () => io.startSweepThread());
  const document = book.document();
  for (const { sweeper } of threads) sweeper.open(document);
  const stop = new AbortController();
  const listenNoMore = io.whenInterrupted(() => stop.abort());
  try {
    const asker = new SharedAsker(threads.map(({ sweeper }) => sweeper));
    const result = await work(asker, { signal: stop.signal });
    return { result, stopped: stop.signal.aborted };
  } catch (error) {
    if (error instanceof StudyFault) throw new Misuse(error.message);
    if (!(error instanceof SweepFailed)) throw error;
    io.err(error.message);
    return undefined;
  } finally {
    listenNoMore();
    await Promise.all(threads.map((thread) => thread.end()));
  }
}
