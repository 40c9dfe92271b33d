import type { UnreadLine } from '@kerfbook/workbook/from-text';

/** Lines that are drawn, at the most; the count is told of all. */
const DRAWN = 100;

/** Every line of which nothing is added, with the reason: first those that a maker may miss. */
export function UnreadLines({ unread }: { readonly unread: readonly UnreadLine[] }) {
  const missed = unread.filter(({ expected }) => !expected);
  const others = unread.filter(({ expected }) => expected);
  return (
    <>
      {missed.length === 0 ? null : (
        <section className="from-text-unread" aria-label="Lines not read">
          <h3>Not read</h3>
          <Lines lines={missed} />
        </section>
      )}
      {others.length === 0 ? null : (
        <details className="from-text-unread">
          <summary>
            Headings, sums and remarks: {others.length} {others.length === 1 ? 'line' : 'lines'}
          </summary>
          <Lines lines={others} />
        </details>
      )}
    </>
  );
}

function Lines({ lines }: { readonly lines: readonly UnreadLine[] }) {
  const rest = lines.length - DRAWN;
  return (
    <>
      <ul>
        {lines.slice(0, DRAWN).map(({ line, text, says }) => (
          <li key={line}>
            <span className="quiet">Line {line}:</span> {text}{' '}
            <span className="quiet">– {says}</span>
          </li>
        ))}
      </ul>
      {rest > 0 ? <p className="quiet">and {rest.toLocaleString('en-US')} more</p> : null}
    </>
  );
}
