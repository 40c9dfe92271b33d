import { keepFurther, plansAskedIn } from '@kerfbook/cutting';
import { type JointPlanOrNot, jointPlan, markOf } from '@kerfbook/drawing';
import type { Bookcase } from '@kerfbook/keeping';
import { useEffect, useMemo, useState } from 'react';
import { Pages } from '../paper/blocks.tsx';
import { dayText, unitsText } from '../paper/page-head.ts';
import { fieldSize } from '../paper/paper.ts';
import { PaperDesk, Tick, usePaper } from '../paper/paper-desk.tsx';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import { prove } from '../proving/prover.ts';
import type { Session } from '../session/session.ts';
import { ChooseJobs } from './choose-jobs.tsx';
import { isToBuild, type JobLine, shownJobs } from './job-list.ts';
import { jointSheets, type OpenJob } from './joint-sheets.tsx';
import { type OpenedJobs, useOpenJobs } from './open-jobs.ts';
import '../shop/shop.css';

interface TogetherProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly lines: readonly JobLine[];
  /** Grows with every change of the workbook at hand. */
  readonly changes: number;
  readonly onClose: () => void;
}

/** One buying list and one cutting plan over several jobs, to look at and to print. */
export function Together({ session, bookcase, lines: all, changes, onClose }: TogetherProps) {
  const lines = shownJobs(all, { shown: 'all', order: 'due', typed: '' });
  const [chosen, setChosen] = useState<ReadonlySet<string>>(
    () => new Set(lines.filter(isToBuild).map(({ id }) => id)),
  );
  const wanted = lines.filter(({ id }) => chosen.has(id));
  // A price that comes later makes no other plan.
  const key = JSON.stringify(wanted.map(({ id, updated, title }) => [id, updated, title]));
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key tells them apart
  const some = useMemo(() => wanted, [key]);
  const opened = useOpenJobs(session, bookcase, some, changes);
  const { jobs, joint, open, stop } = useJointPlan(opened, changes);
  const [first] = jobs;
  const source = first?.source ?? session.book;
  const [page, setPage] = usePaper(session.book.units);
  const [prices, setPrices] = useState(true);
  useDrawingStyle();
  const { width, height } = fieldSize(page);
  const blocks = useMemo(
    () =>
      joint?.ok === true
        ? jointSheets(jobs, joint, { prices, field: { width, height }, proving: open > 0 })
        : [],
    [jobs, joint, prices, width, height, open],
  );
  const says =
    some.length === 0
      ? 'Choose the jobs to buy and cut for.'
      : opened.left > 0
        ? `Opening the workbooks, ${opened.left} to go …`
        : joint?.ok === false
          ? joint.says
          : undefined;
  const head = {
    title: 'Buy and cut together',
    beside: `Printed ${dayText(new Date())}`,
    under: jobs.map(({ mark }) => `Job ${mark}`).join(' · '),
    day: '',
  };
  return (
    <PaperDesk
      title="Buy and cut together"
      page={page}
      onPage={setPage}
      onClose={onClose}
      isBare={blocks.length === 0}
      chosen={`${some.length} ${some.length === 1 ? 'job' : 'jobs'}${prices ? ', with prices' : ''}`}
      notes={
        <>
          {opened.troubles.map((trouble) => (
            <p key={trouble} className="complaint">
              {trouble}
            </p>
          ))}
          {says === undefined ? null : (
            <p className="quiet" role="status">
              {says}
            </p>
          )}
          {open === 0 || opened.left > 0 ? null : (
            <p className="complaint">
              The buying plan is still being proven; what you print now says so.{' '}
              <button type="button" className="button-plain" onClick={stop}>
                Stop proving
              </button>
            </p>
          )}
        </>
      }
      choices={
        <>
          <fieldset>
            <ChooseJobs lines={lines} chosen={chosen} onChosen={setChosen} />
          </fieldset>
          <fieldset>
            <legend>On the pages</legend>
            <Tick says="With prices" on={prices} onTick={setPrices} />
          </fieldset>
        </>
      }
    >
      {blocks.length === 0 ? null : (
        <Pages page={page} blocks={blocks} head={head} foot={unitsText(source)} />
      )}
    </PaperDesk>
  );
}

interface Planned {
  readonly jobs: readonly OpenJob[];
  /** Left out while the workbooks are being opened. */
  readonly joint: JointPlanOrNot | undefined;
  /** Plans that are still being proven. */
  readonly open: number;
  readonly stop: () => void;
}

/** The plan found quickly, and what a worker finds further, one plan after the other, until all are proven. */
function useJointPlan({ books, left }: OpenedJobs, changes: number): Planned {
  const [found, setFound] = useState(0);
  const [ended, setEnded] = useState<ReadonlySet<string>>(new Set());
  const jobs = useMemo(
    () =>
      books.map(
        ({ line, book }, i): OpenJob => ({ mark: markOf(i), title: line.title, source: book }),
      ),
    [books],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: plans are found elsewhere, and the workbook at hand changes within
  const { joint, asked } = useMemo(() => {
    let planned: JointPlanOrNot | undefined;
    const all =
      left > 0 || jobs.length === 0
        ? []
        : plansAskedIn(() => {
            planned = jointPlan(jobs, 'cell');
          });
    return { joint: planned, asked: all.filter(({ state }) => state === 'open') };
  }, [jobs, left, found, changes]);
  const waiting = asked.filter(({ job }) => !ended.has(JSON.stringify(job)));
  const next = waiting[0];
  const key = next === undefined ? undefined : JSON.stringify(next.job);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a plan is the same as long as its job is
  useEffect(() => {
    if (next === undefined || key === undefined) return undefined;
    const proof = prove(next.job);
    const end = (): void => setEnded((before) => new Set(before).add(key));
    proof.plan.then(
      (plan) => {
        keepFurther(next.job, plan, next.plan);
        setFound((many) => many + 1);
      },
      // Where no worker is to be had, the first plan stays.
      end,
    );
    return proof.stop;
  }, [key]);
  const stop = (): void => setEnded(new Set(asked.map(({ job }) => JSON.stringify(job))));
  return { jobs, joint, open: waiting.length, stop };
}
