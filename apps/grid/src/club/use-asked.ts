import { useCallback, useEffect, useState } from 'react';
import { refusal } from './here.ts';

/** What was asked for: on its way, there, or refused in a sentence. */
export interface Found<T> {
  readonly is?: T;
  readonly says?: string;
  /** Asks once more; what was there stays until then. */
  readonly again: () => void;
}

/**
 * Asks for something as often as what it depends on changes.
 * @param work has to be the same function as long as nothing differs (`useCallback`)
 */
export function useAsked<T>(work: (signal: AbortSignal) => Promise<T>): Found<T> {
  const [found, setFound] = useState<{ readonly is?: T; readonly says?: string }>({});
  const [times, setTimes] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked once more with each of the times.
  useEffect(() => {
    const stop = new AbortController();
    setFound((before) => (before.is === undefined ? {} : { is: before.is }));
    work(stop.signal).then(
      (is) => {
        if (!stop.signal.aborted) setFound({ is });
      },
      (error: unknown) => {
        if (!stop.signal.aborted) setFound({ says: refusal(error) });
      },
    );
    return () => stop.abort();
  }, [work, times]);
  const again = useCallback(() => setTimes((before) => before + 1), []);
  return { ...found, again };
}

/** Something that a press does at the club: whether it is under way, and why it came to nothing. */
export function useDoes(): {
  readonly busy: boolean;
  readonly says: string | undefined;
  /** Answers whether it was done. */
  readonly run: (work: () => Promise<unknown>) => Promise<boolean>;
} {
  const [busy, setBusy] = useState(false);
  const [says, setSays] = useState<string>();
  const run = useCallback(async (work: () => Promise<unknown>): Promise<boolean> => {
    setBusy(true);
    setSays(undefined);
    try {
      await work();
      return true;
    } catch (error) {
      setSays(refusal(error));
      return false;
    } finally {
      setBusy(false);
    }
  }, []);
  return { busy, says, run };
}
