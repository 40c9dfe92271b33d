import type { BookStore } from '@kerfbook/keeping';
import { useCallback, useEffect, useState } from 'react';

export type PartName = 'drawing' | 'did' | 'cell' | 'checks';

export type Folds = Readonly<Record<PartName, boolean>>;

const ALL_OPEN: Folds = { drawing: true, did: true, cell: true, checks: true };
const KEY = 'folds';

/** Which parts of the side table are open; kept on this device. */
export function useFolds(
  store: Pick<BookStore, 'get' | 'set'>,
): readonly [Folds, (part: PartName, open: boolean) => void] {
  const [folds, setFolds] = useState(ALL_OPEN);
  useEffect(() => {
    void store.get(KEY).then(
      (kept) => setFolds(readFolds(kept)),
      () => undefined,
    );
  }, [store]);
  const fold = useCallback(
    (part: PartName, open: boolean) => {
      setFolds((before) => {
        const after = { ...before, [part]: open };
        // Folding is a convenience: where it cannot be kept, nothing is lost worth a sentence.
        store.set(KEY, after).catch(() => undefined);
        return after;
      });
    },
    [store],
  );
  return [folds, fold];
}

function readFolds(kept: unknown): Folds {
  if (kept === null || typeof kept !== 'object') return ALL_OPEN;
  const parts = kept as Partial<Record<PartName, unknown>>;
  return {
    drawing: parts.drawing !== false,
    did: parts.did !== false,
    cell: parts.cell !== false,
    checks: parts.checks !== false,
  };
}
