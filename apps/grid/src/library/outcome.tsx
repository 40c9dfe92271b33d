import type { Weighed } from '@kerfbook/workbook';
import { differsIn, type Weighings } from './weighing.ts';
import './renewal.css';

/** What the workbook comes to with all choices as they are. */
export function Outcome({
  now,
  weighings: { all, busy },
  head = 'What it does to this workbook',
}: {
  readonly now: Weighed;
  readonly weighings: Weighings;
  readonly head?: string;
}) {
  return (
    <section className="renewal-part" aria-labelledby="renewal-does" aria-busy={busy}>
      <h3 id="renewal-does">{head}</h3>
      <div aria-live="polite">
        {all === undefined ? <p className="quiet">Working it out …</p> : null}
        {all !== undefined && 'says' in all ? <p className="complaint">{all.says}</p> : null}
        {all !== undefined && 'results' in all ? <Lines lines={differsIn(now, all)} /> : null}
      </div>
    </section>
  );
}

function Lines({ lines }: { readonly lines: readonly string[] }) {
  if (lines.length === 0)
    return <p>Its main results, its parts and its checks stay as they are.</p>;
  return (
    <ul className="renewal-does">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
