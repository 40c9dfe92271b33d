import { breath } from '@kerfbook/keeping';
import { type Compared, compared } from '@kerfbook/workbook';
import { useCallback, useId, useState } from 'react';
import { Result } from '../library/compare-dialog.tsx';
import { momentOf } from '../library/moments.ts';
import '../library/renewal.css';
import { ChangeList } from './change-list.tsx';
import { OnItsWay } from './complaint.tsx';
import { revisionOf } from './revisions-read.ts';
import type { TemplateTold } from './template-page.tsx';
import { useAsked } from './use-asked.ts';

interface RevisionsProps {
  readonly told: TemplateTold;
  readonly busy: boolean;
  readonly onOpen: (number: number) => void;
}

/** The revisions of a template with what each changed, and any two of them compared. */
export function Revisions({ told, busy, onOpen }: RevisionsProps) {
  const { template, revisions } = told;
  const newest = [...revisions].sort((a, b) => b.number - a.number);
  return (
    <section className="shelf-part" aria-label="Revisions">
      <h3>Revisions</h3>
      <ol className="shelf-list">
        {newest.map(({ number, by, note, made, changes, suggestedBy }) => (
          <li key={number}>
            <h4>
              Revision {number}{' '}
              <span className="quiet">
                {momentOf(made)}, by {by.name}
                {suggestedBy === undefined ? '' : `, suggested by ${suggestedBy.name}`}
              </span>
            </h4>
            {note.trim() === '' ? null : <p className="shelf-words">{note}</p>}
            {changes.length === 0 ? (
              <p className="quiet">
                {number === 1 ? 'Published for the first time.' : 'Nothing was listed as changed.'}
              </p>
            ) : (
              <ChangeList
                changes={changes}
                head="What changed"
                before={`Revision ${number - 1}`}
                after={`Revision ${number}`}
              />
            )}
            {number === template.revision ? null : (
              <p className="actions">
                <button
                  type="button"
                  className="button"
                  disabled={busy}
                  onClick={() => onOpen(number)}
                >
                  Open a copy of revision {number}
                </button>
              </p>
            )}
          </li>
        ))}
      </ol>
      {revisions.length < 2 ? null : (
        <CompareTwo id={template.id} numbers={newest.map(({ number }) => number)} />
      )}
    </section>
  );
}

function CompareTwo({ id, numbers }: { readonly id: string; readonly numbers: readonly number[] }) {
  const [newest = 1, before = 1] = numbers;
  const [first, setFirst] = useState(before);
  const [second, setSecond] = useState(newest);
  const [asked, setAsked] = useState(false);
  return (
    <details className="shelf-fold" onToggle={({ currentTarget }) => setAsked(currentTarget.open)}>
      <summary>Compare two revisions</summary>
      <div className="compare-choice">
        <Which label="Compare" numbers={numbers} chosen={first} onChoose={setFirst} />
        <Which label="with" numbers={numbers} chosen={second} onChoose={setSecond} />
      </div>
      {!asked ? null : first === second ? (
        <p>Choose two that are not the same.</p>
      ) : (
        <ComparedTwo key={`${first} ${second}`} id={id} first={first} second={second} />
      )}
    </details>
  );
}

interface WhichProps {
  readonly label: string;
  readonly numbers: readonly number[];
  readonly chosen: number;
  readonly onChoose: (number: number) => void;
}

function Which({ label, numbers, chosen, onChoose }: WhichProps) {
  const id = useId();
  return (
    <div>
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        className="field"
        value={chosen}
        onChange={({ currentTarget }) => onChoose(Number(currentTarget.value))}
      >
        {numbers.map((number) => (
          <option key={number} value={number}>
            Revision {number}
          </option>
        ))}
      </select>
    </div>
  );
}

interface ComparedTwoProps {
  readonly id: string;
  readonly first: number;
  readonly second: number;
}

function ComparedTwo({ id, first, second }: ComparedTwoProps) {
  const found = useAsked(
    useCallback(async (): Promise<Compared> => {
      const [was, is] = await Promise.all([revisionOf(id, first), revisionOf(id, second)]);
      await breath();
      return compared(was.document, is.document);
    }, [id, first, second]),
  );
  if (found.says !== undefined) {
    return <OnItsWay says={found.says} what="" again={found.again} />;
  }
  return <Result result={found.is} first={`Revision ${first}`} second={`Revision ${second}`} />;
}
