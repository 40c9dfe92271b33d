import type { ReactNode } from 'react';

export interface FoldProps {
  readonly title: string;
  /** What the heading says besides, open or folded. */
  readonly aside?: ReactNode;
  readonly open: boolean;
  readonly onToggle: (open: boolean) => void;
  readonly children: ReactNode;
}

/** One part of the side table under a heading that folds it away. */
export function Fold({ title, aside, open, onToggle, children }: FoldProps) {
  return (
    <details
      className="fold"
      open={open}
      onToggle={(event) => {
        if (event.currentTarget.open !== open) onToggle(event.currentTarget.open);
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
