import {
  type Asker,
  type Best,
  best,
  type Found,
  runTable,
  type Spread,
  StudyFault,
  type StudyQuestion,
  seek,
  spread,
  type TableRun,
  type Waiting,
} from '@kerfbook/studies';
import type { OpenWorkbook } from '@kerfbook/workbook';
import { SweepFailed } from '@kerfbook/workbook/sweep';
import { useEffect, useState } from 'react';
import { Askers } from './askers.ts';

/** What a study came to. */
export type Answer =
  | { readonly kind: 'table'; readonly run: TableRun }
  | { readonly kind: 'seek'; readonly found: Found }
  | { readonly kind: 'spread'; readonly run: Spread }
  | { readonly kind: 'best'; readonly run: Best };

/** A study on its way, or what it came to. */
export interface Run<A> {
  /** Sets that are done while it is on its way. */
  readonly done?: number | undefined;
  readonly answer?: A | undefined;
  /** Why there is no answer. */
  readonly failed?: string | undefined;
  /** Ends it and keeps what there is. */
  readonly stop?: (() => void) | undefined;
}

/** A pause after which a study is worked out anew, ms: a number may still be under way. */
const PAUSE = 300;

/**
 * What a question comes to, worked out in other threads a moment after the last change; the answer of before stays until
 * there is another.
 *
 * @param ask undefined where there is nothing to ask
 */
export function useRun<A>(
  book: OpenWorkbook,
  changes: number,
  key: string,
  ask: ((asker: Asker, waiting: Waiting) => Promise<A>) | undefined,
): Run<A> {
  const [run, setRun] = useState<Run<A> & { readonly key?: string }>({});
  const [askers] = useState(() => new Askers());
  useEffect(() => () => askers.end(), [askers]);
  // `ask` is another function each time; what it asks is known by its key and by what was changed.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above
  useEffect(() => {
    if (ask === undefined) {
      setRun({});
      return;
    }
    const stop = new AbortController();
    let gone = false;
    const begin = setTimeout(async () => {
      const set = (next: Run<A>): void => {
        if (!gone) setRun((before) => ({ ...(before.key === key ? before : {}), ...next, key }));
      };
      const over = { done: undefined, stop: undefined };
      set({ done: 0, stop: () => stop.abort() });
      try {
        const asker = askers.for(book.document());
        const hear = (done: number): void => set({ done });
        const answer = await ask(asker, { hear, signal: stop.signal });
        set({ ...over, answer, failed: undefined });
      } catch (error) {
        if (!(error instanceof StudyFault || error instanceof SweepFailed)) throw error;
        set({ ...over, answer: undefined, failed: error.message });
      }
    }, PAUSE);
    return () => {
      gone = true;
      clearTimeout(begin);
      stop.abort();
    };
  }, [book, changes, key, askers]);
  return run.key === key ? run : {};
}

/** Asks what a study asks. */
export async function answerTo(
  book: OpenWorkbook,
  asks: StudyQuestion,
  asker: Asker,
  waiting: Waiting,
): Promise<Answer> {
  switch (asks.kind) {
    case 'table':
      return { kind: 'table', run: await runTable(book, asker, asks.over, asks.show, waiting) };
    case 'seek': {
      const { goal, over: span, keep } = asks;
      return { kind: 'seek', found: await seek(book, asker, { goal, span, keep }, waiting) };
    }
    case 'spread': {
      const { over: inputs, show: results, draws, seed } = asks;
      return {
        kind: 'spread',
        run: await spread(book, asker, { inputs, results, draws, seed }, waiting),
      };
    }
    case 'best': {
      const { over: axes, aims, seed } = asks;
      return { kind: 'best', run: await best(book, asker, { axes, aims, seed }, waiting) };
    }
  }
}
