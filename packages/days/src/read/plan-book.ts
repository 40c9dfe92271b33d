import type { PartProblem } from '@kerfbook/drawing';
import { BeyondCalendar } from '../calendar/shop-days.ts';
import type { Job } from '../plan/operation.ts';
import { type Schedule, scheduleJobs } from '../plan/schedule.ts';
import { type DaysSource, type OperationsReading, readOperations } from './read-operations.ts';
import { readShop, type ShopHoursSource, type ShopReading } from './read-shop.ts';

/** What is read of an open workbook to plan its days. */
export interface PlanSource extends DaysSource, ShopHoursSource {
  /** What the job is called. */
  readonly title: string;
}

/** The days of a workbook, as far as they can be planned. */
export interface BookPlan {
  /** Its operations. */
  readonly reading: OperationsReading;
  /** When its shop works. */
  readonly hours: ShopReading;
  /** The day its work was to begin on: as it was asked for, as the workbook says, or else the day given for that. */
  readonly from: number;
  /** Whether anybody said so. */
  readonly isFromSaid: boolean;
  /** The job, to be planned beside others; undefined where there is nothing to plan. */
  readonly job: Job | undefined;
  /** When each operation is done; undefined where that cannot be planned. */
  readonly schedule: Schedule | undefined;
  /** Why it cannot, where no row of the table is to blame. */
  readonly says: string | undefined;
  /** What cannot be read of its operations, each at its cell. */
  readonly problems: readonly PartProblem[];
}

/**
 * Plans one workbook.
 * @param from the day it is to begin on; as the workbook says where left out
 * @param otherwise the day where nobody says: tomorrow
 */
export function planBook(
  source: PlanSource,
  { from, otherwise }: { readonly from?: number | undefined; readonly otherwise: number },
): BookPlan {
  const reading = readOperations(source);
  const hours = readShop(source);
  const begin = from ?? hours.begins;
  const { operations, circles, problems } = reading;
  const isWhole = operations.length > 0 && circles.length === 0;
  const job = isWhole ? { name: source.title, operations } : undefined;
  const day = begin ?? otherwise;
  return {
    reading,
    hours,
    from: day,
    isFromSaid: begin !== undefined,
    job,
    problems,
    ...planned(job, hours, day),
  };
}

function planned(
  job: Job | undefined,
  { shop }: ShopReading,
  from: number,
): Pick<BookPlan, 'schedule' | 'says'> {
  if (job === undefined) return { schedule: undefined, says: undefined };
  try {
    return { schedule: scheduleJobs([job], shop, from), says: undefined };
  } catch (error) {
    if (!(error instanceof BeyondCalendar)) throw error;
    return { schedule: undefined, says: error.message };
  }
}
