import type { LengthsJob, LengthsPlan } from './lengths-types.ts';

/**
 * Plans that were looked for further than a cell waits: `planLengths` answers a cell with one from then on.
 * Whoever finds them counts steps, so that one job ends in one plan wherever it is planned, and in its first
 * plan where nobody looks further.
 */
const found = new Map<string, LengthsPlan>();
/** The one that was asked for longest ago goes first, and is looked for again when it is asked for. */
const MOST_FOUND = 500;

/** A plan that a cell was answered with. */
export interface AskedPlan {
  /** What was to be planned. */
  readonly job: LengthsJob;
  /** The answer. */
  readonly plan: LengthsPlan;
  /** `open`: not proven, and nobody has looked further yet; `ended`: not proven, and no more is done. */
  readonly state: 'proven' | 'open' | 'ended';
}

let listening: Map<string, AskedPlan> | undefined;

const keyOf = ({ effort: _, ...job }: LengthsJob): string => JSON.stringify(job);

/** How often a cell asked for a plan; it only grows. Where nobody asked, no cell rests on one. */
export const timesAsked = (): number => asked;

let asked = 0;

/** The answer to a cell: what was found further, else what is found quickly. */
export function answered(job: LengthsJob, quick: (job: LengthsJob) => LengthsPlan): LengthsPlan {
  asked += 1;
  if (found.size === 0 && listening === undefined) return quick(job);
  const key = keyOf(job);
  const further = found.get(key);
  if (further !== undefined) {
    found.delete(key);
    found.set(key, further);
  }
  const plan = further ?? quick(job);
  const ended = further === undefined ? 'open' : 'ended';
  listening?.set(key, { job, plan, state: plan.proven ? 'proven' : ended });
  return plan;
}

/**
 * Every plan that cells are answered with while something is worked out, each once.
 * @throws what `run` throws
 */
export function plansAskedIn(run: () => void): readonly AskedPlan[] {
  const before = listening;
  const now = new Map<string, AskedPlan>();
  listening = now;
  try {
    run();
  } finally {
    listening = before;
  }
  for (const [key, one] of now) before?.set(key, one);
  return [...now.values()];
}

/**
 * Has cells answered with a plan that was looked for as far as it goes.
 * @returns whether that is another answer than before, so that cells are to be worked out anew
 */
export function keepFurther(job: LengthsJob, plan: LengthsPlan, before: LengthsPlan): boolean {
  const key = keyOf(job);
  found.delete(key);
  found.set(key, plan);
  const oldest = found.keys().next();
  if (found.size > MOST_FOUND && oldest.done !== true) found.delete(oldest.value);
  return plan.cost !== before.cost || plan.bound !== before.bound || plan.bought !== before.bought;
}

/** Has cells answered quickly again. */
export function forgetFurther(): void {
  found.clear();
}
