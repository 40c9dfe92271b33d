import { isUncertain, type Likelihood, type Schedule, USUAL_DRAWS } from '@kerfbook/days';
import { useEffect, useState } from 'react';
import type { Asked } from './likelihood-worker.ts';

/** How likely the days of a plan are, as far as that is known. */
export interface Odds {
  /** Of each job; undefined until it is known. */
  readonly likelihood?: readonly Likelihood[] | undefined;
  /** Ends the tries that are being made. */
  readonly stop?: (() => void) | undefined;
  /** Makes them after all, where they were ended. */
  readonly again?: (() => void) | undefined;
  /** Why it is not known. */
  readonly failed?: string | undefined;
}

/** A pause after which tries are made, ms: a number may still be under way. */
const PAUSE = 300;

/** Tries a plan in another thread, a moment after it changed; nothing where no hours are uncertain. */
export function useLikelihood(schedule: Schedule | undefined): Odds {
  const [odds, setOdds] = useState<Odds>({});
  const [turn, setTurn] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another turn tries once more
  useEffect(() => {
    setOdds({});
    if (schedule === undefined || !schedule.jobs.some((_, job) => isUncertain(schedule, job))) {
      return undefined;
    }
    let worker: Worker | undefined;
    const end = (): void => worker?.terminate();
    const wait = setTimeout(() => {
      worker = new Worker(new URL('./likelihood-worker.ts', import.meta.url), {
        type: 'module',
        name: 'days',
      });
      worker.onmessage = ({ data }: MessageEvent<readonly Likelihood[]>) => {
        end();
        setOdds({ likelihood: data });
      };
      worker.onerror = ({ message }) => {
        end();
        setOdds({
          failed: `How likely it is could not be worked out: ${message || 'reload the page and look again'}.`,
        });
      };
      const asked: Asked = {
        jobs: schedule.inside.jobs,
        shop: schedule.shop,
        from: schedule.asked,
        draws: USUAL_DRAWS,
        seed: 1,
      };
      worker.postMessage(asked);
      setOdds({
        stop: () => {
          end();
          setOdds({ again: () => setTurn((one) => one + 1) });
        },
      });
    }, PAUSE);
    return () => {
      clearTimeout(wait);
      end();
    };
  }, [schedule, turn]);
  return odds;
}
