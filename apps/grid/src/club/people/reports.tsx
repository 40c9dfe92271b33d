import type { AnswerOf } from '@kerfbook/protocol';
import { useCallback, useState } from 'react';
import { momentOf } from '../../library/moments.ts';
import { Complaint, OnItsWay } from '../complaint.tsx';
import { askClub } from '../here.ts';
import { ShowAgain } from '../show-again.tsx';
import { useAsked, useDoes } from '../use-asked.ts';
import { Section } from './section.tsx';

type Report = AnswerOf<'reports'>['reports'][number];

const WHAT: Readonly<Record<Report['of'], string>> = {
  template: 'The template',
  remark: 'A remark about',
  built: 'A "built it" of',
};

/** What members reported, for a keeper to hide or to leave. */
export function Reports({ onTemplate }: { readonly onTemplate: (id: string) => void }) {
  const read = useAsked(useCallback((signal: AbortSignal) => askClub('reports', {}, signal), []));
  // What was settled here stays in sight, so that a slip can be put right.
  const [settled, setSettled] = useState<ReadonlyMap<string, 'hide' | 'leave'>>(new Map());
  return (
    <Section title="Reported">
      {read.is === undefined ? (
        <OnItsWay says={read.says} what="Reading what was reported …" again={read.again} />
      ) : (
        <>
          {read.is.reports.length === 0 ? <p>Nothing waits for you.</p> : null}
          <ul className="shelf-list" aria-label="Reported">
            {read.is.reports.map((one) => (
              <OneReport
                key={one.id}
                one={one}
                settled={settled.get(one.about)}
                onSettled={(how) => setSettled(new Map([...settled, [one.about, how]]))}
                onTemplate={onTemplate}
              />
            ))}
          </ul>
        </>
      )}
    </Section>
  );
}

interface OneReportProps {
  readonly one: Report;
  /** What a keeper did about it just now; every report of the same thing is settled with it. */
  readonly settled: 'hide' | 'leave' | undefined;
  readonly onSettled: (how: 'hide' | 'leave') => void;
  readonly onTemplate: (id: string) => void;
}

function OneReport({ one, settled, onSettled, onTemplate }: OneReportProps) {
  const { id, of, about, template, title, text, by, why, made } = one;
  const { busy, says, run } = useDoes();
  const settle = async (how: 'hide' | 'leave'): Promise<void> => {
    const asked = { params: { report: id }, body: { do: how } };
    if (await run(() => askClub('settleReport', asked))) onSettled(how);
  };
  const called = `what ${by.name} reported about ${title}`;
  return (
    <li>
      <h4>
        {WHAT[of]} {title}
      </h4>
      {of === 'template' ? null : <p className="shelf-words">{text}</p>}
      <p className="quiet">
        Reported by {by.name}, {momentOf(made)}:
      </p>
      <p className="shelf-words">{why}</p>
      <p className="actions">
        {settled === undefined ? (
          <>
            <button
              type="button"
              className="button"
              disabled={busy}
              aria-label={`Hide it: ${called}`}
              onClick={() => void settle('hide')}
            >
              Hide it
            </button>
            <button
              type="button"
              className="button"
              disabled={busy}
              aria-label={`Let it stand: ${called}`}
              onClick={() => void settle('leave')}
            >
              Let it stand
            </button>
          </>
        ) : null}
        <button
          type="button"
          className="button"
          aria-label={`Look at the template: ${title}`}
          onClick={() => onTemplate(template)}
        >
          Look at the template
        </button>
      </p>
      {settled === 'hide' ? <ShowAgain of={of} id={about} what={called} says="Hidden." /> : null}
      {settled === 'leave' ? <p role="status">It stands as it is.</p> : null}
      <Complaint says={says} />
    </li>
  );
}
