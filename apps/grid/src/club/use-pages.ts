import { useCallback, useState } from 'react';
import { refusal } from './here.ts';
import { useAsked } from './use-asked.ts';

interface PageOf<T> {
  readonly some: readonly T[];
  /** Where the list goes on; left out at its end. */
  readonly next?: string | undefined;
}

/** A list that comes part by part. */
interface Pages<T> {
  readonly some?: readonly T[];
  readonly says?: string;
  /** Asks for the next part; left out at the end of the list, and while one is on its way. */
  readonly more?: () => void;
  readonly again: () => void;
}

/**
 * Asks for a list, a part after the other.
 * @param work has to be the same function as long as nothing differs (`useCallback`)
 */
export function usePages<T>(
  work: (after: string | undefined, signal?: AbortSignal) => Promise<PageOf<T>>,
): Pages<T> {
  const first = useAsked(useCallback((signal: AbortSignal) => work(undefined, signal), [work]));
  const [later, setLater] = useState<{
    readonly of: PageOf<T> | undefined;
    readonly parts: readonly PageOf<T>[];
  }>({ of: undefined, parts: [] });
  const [busy, setBusy] = useState(false);
  const [says, setSays] = useState<string>();
  if (first.is === undefined) {
    return { again: first.again, ...(first.says === undefined ? {} : { says: first.says }) };
  }
  const begins = first.is;
  // Read anew from its beginning, what came behind it is of before.
  const parts = later.of === begins ? later.parts : [];
  const next = (parts.at(-1) ?? begins).next;
  const more = (): void => {
    setBusy(true);
    setSays(undefined);
    work(next)
      .then(
        (part) => setLater({ of: begins, parts: [...parts, part] }),
        (error: unknown) => setSays(refusal(error)),
      )
      .finally(() => setBusy(false));
  };
  return {
    some: [begins, ...parts].flatMap((part) => part.some),
    again: first.again,
    ...(says === undefined ? {} : { says }),
    ...(next === undefined || busy ? {} : { more }),
  };
}
