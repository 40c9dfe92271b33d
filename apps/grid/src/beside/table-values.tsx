import type { Explanation } from '@kerfbook/workbook';
import { useState } from 'react';
import { StateIcon } from './state-icon.tsx';

const FEW = 6;

interface TableValuesProps {
  readonly why: Explanation;
}

/** Values of the trade's tables that a cell rests on: where each comes from and what is known against it. */
export function TableValues({ why: { tables, cautions } }: TableValuesProps) {
  const [all, setAll] = useState(false);
  if (tables.length === 0) return null;
  const shown = all ? tables : tables.slice(0, FEW);
  return (
    <section className="neighbours">
      <h3>From the trade’s tables</h3>
      {cautions.map((says) => (
        <p key={says} className="trouble">
          <StateIcon state="care" />
          <span>{says}</span>
        </p>
      ))}
      <dl>
        {shown.map(({ of, shown: value, how, source, note }) => (
          <div key={`${of} ${value}`}>
            <dt>{of}</dt>
            <dd>
              {value === undefined ? null : <>{value}, </>}
              <strong>{how}</strong>. <span className="quiet">{source}.</span>
              {note === undefined ? null : <span> {note}</span>}
            </dd>
          </div>
        ))}
      </dl>
      {shown.length === tables.length ? null : (
        <button type="button" className="button-plain" onClick={() => setAll(true)}>
          Show {tables.length - shown.length} more
        </button>
      )}
    </section>
  );
}
