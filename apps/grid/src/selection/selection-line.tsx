import { useMemo } from 'react';
import { sizeInWords } from '../session/area.ts';
import type { Session, SessionState } from '../session/session.ts';
import { summaryOf } from './summary.ts';

interface SelectionLineProps {
  readonly session: Session;
  /** The session as it stood when the cells were last painted. */
  readonly state: SessionState;
}

/** Under the grid: what is selected comes to, quietly (G15). */
export default function SelectionLine({ session, state }: SelectionLineProps) {
  const { at, selection, changes } = state;
  const summary = useMemo(
    () =>
      selection === undefined || changes < 0
        ? undefined
        : summaryOf(session.book, at.sheet, selection.areas),
    [session, at.sheet, selection, changes],
  );
  if (selection === undefined) return null;
  const { totals } = summary ?? {};
  return (
    <dl className="selection-line">
      <div>
        <dt className="visually-hidden">Selected</dt>
        <dd className="quiet">{sizeInWords(selection.areas)}</dd>
      </div>
      {summary === undefined ? null : <Figure title="Filled" says={String(summary.filled)} />}
      {summary === undefined || summary.numbers === 0 ? null : (
        <Figure title="Numbers" says={String(summary.numbers)} />
      )}
      {totals === undefined ? null : (
        <>
          <Figure title="Sum" says={totals.sum} />
          <Figure title="Average" says={totals.mean} />
          <Figure title="Smallest" says={totals.least} />
          <Figure title="Largest" says={totals.most} />
        </>
      )}
    </dl>
  );
}

function Figure({ title, says }: { readonly title: string; readonly says: string }) {
  return (
    <div>
      <dt className="quiet">{title}</dt>
      <dd>{says}</dd>
    </div>
  );
}
