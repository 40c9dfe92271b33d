import type { Change } from '@kerfbook/protocol';
import { useMemo } from 'react';
import { Fold } from '../library/folded.tsx';
import '../library/renewal.css';

interface ChangeListProps {
  readonly changes: readonly Change[];
  readonly head: string;
  /** What each of both is called: `Revision 1`. */
  readonly before: string;
  readonly after: string;
}

/** What differs between two states, cell by cell in words, as whoever published told it. */
export function ChangeList({ changes, ...rest }: ChangeListProps) {
  const some = useMemo(() => changes.map((one) => ({ ...one, kind: 'cells' as const })), [changes]);
  return (
    <div className="differs">
      <Fold some={some} open={false} {...rest} />
    </div>
  );
}
