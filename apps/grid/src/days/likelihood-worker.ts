import { type Job, likelihood, type Shop, scheduleJobs } from '@kerfbook/days';

/** What is tried in the other thread: plain data, from which it makes the same plan. */
export interface Asked {
  readonly jobs: readonly Job[];
  readonly shop: Shop;
  readonly from: number;
  readonly draws: number;
  readonly seed: number;
}

// Tries a plan many times beside the page.
addEventListener('message', ({ data }: MessageEvent<Asked>) => {
  const { jobs, shop, from, draws, seed } = data;
  postMessage(likelihood(scheduleJobs(jobs, shop, from), { draws, seed }));
});
