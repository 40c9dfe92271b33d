import type { LengthsJob, LengthsPlan } from '@kerfbook/cutting';
import type { ProofTold } from './proof-worker.ts';

/** A plan that is being looked for as far as it goes. */
export interface Proof {
  /** Rejects where the worker cannot be had or fails; never settles once it is stopped. */
  readonly plan: Promise<LengthsPlan>;
  /** Ends it. */
  stop(): void;
}

/** Looks for a plan in a worker of its own, so that it can be ended at any time. */
export function prove(job: LengthsJob): Proof {
  const worker = new Worker(new URL('./proof-worker.ts', import.meta.url), {
    type: 'module',
    name: 'proof',
  });
  const plan = new Promise<LengthsPlan>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<ProofTold>) => {
      worker.terminate();
      if ('plan' in data) resolve(data.plan);
      else reject(new Error(data.failed));
    };
    worker.onerror = (event) => {
      worker.terminate();
      reject(new Error(event.message || 'The search for a cheaper plan could not be started.'));
    };
    worker.postMessage(job);
  });
  return { plan, stop: () => worker.terminate() };
}
