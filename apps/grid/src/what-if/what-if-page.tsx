import { readStudies, type Study } from '@kerfbook/studies';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import { useMemo, useState } from 'react';
import { useSessionBehind } from '../page/use-session.ts';
import type { Session } from '../session/session.ts';
import { AnswerView } from './answers.tsx';
import { ChartsView } from './charts-view.tsx';
import { Progress } from './progress.tsx';
import { beginStudy, KINDS } from './studies-table.ts';
import { StudyForm } from './study-form.tsx';
import { answerTo, useRun } from './use-run.ts';
import { VariantsView } from './variants-view.tsx';
import '../guide/guide.css';
import './what-if.css';

interface WhatIfPageProps {
  readonly session: Session;
  /** Takes the maker to a cell of the workbook. */
  readonly onGo: (at: At) => void;
  /** The charts are what was asked for. */
  readonly charts?: boolean;
}

const VARIANTS = 'variants';
const CHARTS = 'charts';

/** Questions about many sizes, woods and prices at once; they are kept in the workbook and follow it. */
export default function WhatIfPage({ session, onGo, charts = false }: WhatIfPageProps) {
  const { book } = session;
  const { changes } = useSessionBehind(session);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook is read anew when something in it changed
  const studies = useMemo(() => readStudies(book), [book, changes]);
  const [chosen, setChosen] = useState<string | undefined>(charts ? CHARTS : undefined);
  const [says, setSays] = useState<string>();
  const study =
    studies.find(({ id }) => id === chosen) ??
    (chosen === VARIANTS || chosen === CHARTS ? undefined : studies[0]);
  return (
    <section className="whatif-page" aria-label="What if">
      <nav className="whatif-list" aria-label="Studies">
        {studies.map(({ id, name }) => (
          <button
            key={id}
            type="button"
            className="whatif-one"
            aria-current={study?.id === id ? 'true' : undefined}
            onClick={() => setChosen(id)}
          >
            {name}
          </button>
        ))}
        <button
          type="button"
          className="whatif-one"
          aria-current={study === undefined && chosen === VARIANTS ? 'true' : undefined}
          onClick={() => setChosen(VARIANTS)}
        >
          Variants side by side
        </button>
        <button
          type="button"
          className="whatif-one"
          aria-current={study === undefined && chosen === CHARTS ? 'true' : undefined}
          onClick={() => setChosen(CHARTS)}
        >
          Charts: the year, the price
        </button>
        <p className="whatif-new">New study</p>
        {KINDS.map(([kind, label, means]) => (
          <button
            key={kind}
            type="button"
            className="whatif-begin"
            disabled={!session.mayChange}
            onClick={() => {
              const begun = beginStudy(session, kind);
              if ('id' in begun) setChosen(begun.id);
              setSays('says' in begun ? begun.says : undefined);
            }}
          >
            <strong>{label}</strong> <span className="quiet">{means}</span>
          </button>
        ))}
        {says === undefined ? null : (
          <p role="alert" className="whatif-says">
            {says}
          </p>
        )}
      </nav>
      {/* biome-ignore-start lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached with keys. */}
      <section className="whatif-room" aria-label="What it comes to" tabIndex={0}>
        {/* biome-ignore-end lint/a11y/noNoninteractiveTabindex: the room ends. */}
        {chosen === CHARTS ? (
          <>
            <h2>Charts</h2>
            <ChartsView book={book} changes={changes} />
          </>
        ) : chosen === VARIANTS ? (
          <>
            <h2>Variants side by side</h2>
            <VariantsView session={session} book={book} changes={changes} onGo={onGo} />
          </>
        ) : study === undefined ? (
          <p className="quiet plan-nothing">
            What does it cost at 6, 7 and 8 feet, in oak and in ash? How long can it be for an
            amount? Begin a study: it is kept in the workbook, on a sheet of its own, and follows
            every change.
          </p>
        ) : (
          <StudyRoom key={study.id} session={session} book={book} changes={changes} study={study} />
        )}
      </section>
    </section>
  );
}

function StudyRoom({
  session,
  book,
  changes,
  study,
}: {
  readonly session: Session;
  readonly book: OpenWorkbook;
  readonly changes: number;
  readonly study: Study;
}) {
  const { asks } = study;
  const run = useRun(
    book,
    changes,
    `${study.id} ${asks?.kind ?? ''}`,
    asks === undefined ? undefined : (asker, waiting) => answerTo(book, asks, asker, waiting),
  );
  return (
    <>
      <h2>{study.name}</h2>
      <div className="whatif-study">
        <StudyForm session={session} book={book} study={study} />
        <div className="whatif-answer" aria-busy={run.done !== undefined}>
          <Progress run={run} of={setsIn(asks)} />
          {run.answer === undefined || run.answer.kind !== asks?.kind ? null : (
            <AnswerView session={session} book={book} answer={run.answer} />
          )}
        </div>
      </div>
    </>
  );
}

/** How many sets a study goes through, where that is known before. */
function setsIn(asks: Study['asks']): number | undefined {
  if (asks?.kind === 'table') return asks.over.reduce((all, { values }) => all * values.length, 1);
  return asks?.kind === 'spread' ? asks.draws : undefined;
}
