import type { ReactNode } from 'react';
import type { PartName } from './folds.ts';

interface FoldProps {
  readonly part: PartName;
  readonly title: string;
  /** What the heading says besides, open or folded. */
  readonly aside?: ReactNode;
  readonly open: boolean;
  readonly onToggle: (part: PartName, open: boolean) => void;
  readonly children: ReactNode;
}

/** One part of the side table under a heading that folds it away. */
export function Fold({ part, title, aside, open, onToggle, children }: FoldProps) {
  return (
    <details
      className={`fold fold-${part}`}
      open={open}
      onToggle={(event) => {
        if (event.currentTarget.open !== open) onToggle(part, event.currentTarget.open);
      }}
    >
      <summary>
        <h2>{title}</h2>
        {aside}
      </summary>
      <div className="fold-body">{children}</div>
    </details>
  );
}
