import type { Bookcase, BookHead } from '@kerfbook/keeping';
import { changeJob, type EditMaker } from '@kerfbook/keeping/shelf';
import { jobEdit } from '@kerfbook/workbook';
import { useState } from 'react';
import { useSessionBehind } from '../page/use-session.ts';
import type { Session } from '../session/session.ts';
import { JobDays } from './job-days.tsx';
import { JobRows } from './job-rows.tsx';
import { Together } from './together.tsx';
import { useJobs } from './use-jobs.ts';
import './jobs.css';

interface JobsPageProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  /** Another workbook is open: goes on in that. */
  readonly onOpened: () => void;
  readonly onClose: () => void;
}

/** What the last change of a job was, and what takes it back. */
interface Told {
  readonly says: string;
  readonly back?: () => Promise<void>;
}

/** The jobs of all workbooks on this device: whom they are for, how they stand, what they come to. */
export default function JobsPage({ session, bookcase, onOpened, onClose }: JobsPageProps) {
  const { changes } = useSessionBehind(session);
  const jobs = useJobs(bookcase, changes);
  const { lines, others, unread, refresh } = jobs;
  const [told, setTold] = useState<Told>();
  const [trouble, setTrouble] = useState<string>();
  const [room, setRoom] = useState<'list' | 'together' | 'days'>('list');
  const change = async (
    id: string,
    makers: readonly EditMaker[],
    says: (title: string) => string,
  ): Promise<string | undefined> => {
    session.settled();
    const done = await changeJob(bookcase, id, makers, session.apply);
    setTrouble(done.ok ? undefined : done.says);
    if (done.ok && done.back.length > 0) {
      setTold({
        says: says(done.title),
        back: async () => {
          const edits = done.back.map((edit) => () => edit);
          const undone = await changeJob(bookcase, id, edits, session.apply);
          setTold(undefined);
          setTrouble(undone.ok ? undefined : undone.says);
          await refresh();
        },
      });
    }
    await refresh();
    return done.ok ? undefined : done.says;
  };
  const open = async (id: string): Promise<void> => {
    const done = await bookcase.open(id);
    if (done.ok) onOpened();
    else setTrouble(done.says);
  };
  const says = trouble ?? jobs.says;
  if (room === 'together' && lines !== undefined) {
    return (
      <Together
        session={session}
        bookcase={bookcase}
        lines={lines}
        changes={changes}
        onClose={() => setRoom('list')}
      />
    );
  }
  if (room === 'days' && lines !== undefined) {
    return (
      <JobDays
        session={session}
        bookcase={bookcase}
        lines={lines}
        changes={changes}
        onClose={() => setRoom('list')}
      />
    );
  }
  return (
    <section className="jobs-page" aria-label="Jobs" aria-busy={lines === undefined}>
      <header className="jobs-head">
        <h2>Jobs</h2>
        <p className="actions">
          {lines === undefined || lines.length === 0 ? null : (
            <button
              type="button"
              className="button button-main"
              onClick={() => setRoom('together')}
            >
              Buy and cut together
            </button>
          )}
          {lines === undefined || lines.length === 0 ? null : (
            <button type="button" className="button" onClick={() => setRoom('days')}>
              Days
            </button>
          )}
          <button type="button" className="button" onClick={onClose}>
            Close
          </button>
        </p>
      </header>
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      {told === undefined ? null : (
        <p className="undo-line" role="status">
          {told.says}{' '}
          <button type="button" className="button" onClick={() => void told.back?.()}>
            Undo
          </button>
        </p>
      )}
      {unread.length === 0 ? null : (
        <p className="quiet">
          {`${unread.map(({ title }) => `"${title}"`).join(', ')} could not be read, so ${unread.length === 1 ? 'it is' : 'they are'} not listed.`}
        </p>
      )}
      {lines === undefined ? (
        <p className="quiet">Reading the jobs …</p>
      ) : (
        <>
          {lines.length === 0 ? (
            <p className="quiet">
              A job is a workbook that says whom it is for, how it stands and when it is due. Make
              one of your workbooks a job and it is listed here, with all others.
            </p>
          ) : (
            <JobRows lines={lines} onOpen={(id) => void open(id)} onChange={change} />
          )}
          <NewJob
            others={others}
            here={bookcase.current.id}
            isFirst={lines.length === 0}
            onMake={(id) => change(id, [jobEdit], (title) => `"${title}" is a job now.`)}
          />
        </>
      )}
    </section>
  );
}

interface NewJobProps {
  readonly others: readonly BookHead[];
  /** The workbook at hand. */
  readonly here: string;
  readonly isFirst: boolean;
  readonly onMake: (id: string) => Promise<unknown>;
}

/** Makes one of the other workbooks a job. */
function NewJob({ others, here, isFirst, onMake }: NewJobProps) {
  const [chosen, setChosen] = useState<string>();
  const first = others.find(({ id }) => id === here) ?? others[0];
  const id = others.find((one) => one.id === chosen)?.id ?? first?.id;
  if (id === undefined) {
    return isFirst ? (
      <p className="quiet">You have no workbook of your own yet. Open one and change it first.</p>
    ) : null;
  }
  return (
    <p className="jobs-new">
      <label>
        Workbook{' '}
        <select className="field" value={id} onChange={(event) => setChosen(event.target.value)}>
          {others.map((one) => (
            <option key={one.id} value={one.id}>
              {one.title}
            </option>
          ))}
        </select>
      </label>{' '}
      <button
        type="button"
        className={isFirst ? 'button button-main' : 'button'}
        onClick={() => void onMake(id)}
      >
        Make it a job
      </button>
    </p>
  );
}
