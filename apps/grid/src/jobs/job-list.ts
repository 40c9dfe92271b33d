import { dayWords, isDay } from '@kerfbook/guide';
import { JOB_STATES, type JobFacts, type JobState } from '@kerfbook/workbook';
import type { CardPrice } from '../gallery/drawn-card.ts';

/** A job as a line of the list. */
export interface JobLine {
  readonly id: string;
  readonly title: string;
  /** When it was last changed, ms since 1970. */
  readonly updated: number;
  readonly facts: JobFacts;
  /** Left out while it is worked out for the first time. */
  readonly price?: CardPrice;
  /** What the receipts of this job say was paid, in the currency of its workbook; left out where there are none. */
  readonly paid?: number;
  /** Its price is that of before the last change. */
  readonly isOld: boolean;
  /** It is the workbook at hand. */
  readonly here: boolean;
}

/** Which jobs are shown: those that are not paid, all of them, or those of one state. */
export type Shown = 'open' | 'all' | JobState;

/** What the list goes by. */
export type Order = 'due' | 'state';

/** A job in one of these states is the maker's to finish. */
const BEFORE_DELIVERY: ReadonlySet<JobState | undefined> = new Set([
  undefined,
  'asked',
  'quoted',
  'accepted',
  'in the shop',
]);

/** These are built together unless others are chosen. */
export const isToBuild = ({ facts }: JobLine): boolean =>
  facts.state === 'accepted' || facts.state === 'in the shop';

/** Those of the jobs that are to be seen and have every word that was typed, in their order. */
export function shownJobs(
  lines: readonly JobLine[],
  { shown, order, typed }: { readonly shown: Shown; readonly order: Order; readonly typed: string },
): readonly JobLine[] {
  const wanted = typed.trim().toLowerCase().split(/\s+/).filter(Boolean);
  const has = ({ title, facts }: JobLine): boolean => {
    const words = [title, facts.customer ?? '', facts.number ?? '', facts.state ?? '']
      .join(' ')
      .toLowerCase();
    return wanted.every((word) => words.includes(word));
  };
  const isShown = ({ facts: { state } }: JobLine): boolean =>
    shown === 'all' || (shown === 'open' ? state !== 'paid' : state === shown);
  return lines.filter((line) => isShown(line) && has(line)).toSorted(ORDERS[order]);
}

const placeOf = (state: JobState | undefined): number =>
  state === undefined ? -1 : JOB_STATES.indexOf(state);

/** The day that counts: what is delivered or has no day comes after all that has one. */
const dayOf = ({ facts: { due, state } }: JobLine): string =>
  due === undefined || !BEFORE_DELIVERY.has(state) ? '9999' : due;

const byDay = (one: JobLine, other: JobLine): number =>
  dayOf(one).localeCompare(dayOf(other)) ||
  placeOf(one.facts.state) - placeOf(other.facts.state) ||
  (one.facts.due ?? '').localeCompare(other.facts.due ?? '') ||
  one.title.localeCompare(other.title);

const ORDERS: Readonly<Record<Order, (one: JobLine, other: JobLine) => number>> = {
  due: byDay,
  state: (one, other) => placeOf(one.facts.state) - placeOf(other.facts.state) || byDay(one, other),
};

const DAY = 86_400_000;

/** How many days are left until a day, less than none once it is past. */
const daysUntil = (day: string, today: string): number =>
  Math.round((Date.parse(`${day}T12:00:00Z`) - Date.parse(`${today}T12:00:00Z`)) / DAY);

/** Whether a job should have been delivered by now. */
export const isOverdue = ({ facts: { due, state } }: JobLine, today: string): boolean =>
  due !== undefined && isDay(due) && BEFORE_DELIVERY.has(state) && daysUntil(due, today) < 0;

/** When a job is due, in words: `4 December 2026, in 3 days`. */
export function dueWords(line: JobLine, today: string): string {
  const { due, state } = line.facts;
  if (due === undefined || !isDay(due)) return 'no due date';
  if (!BEFORE_DELIVERY.has(state)) return dayWords(due);
  const left = daysUntil(due, today);
  const counted = `${Math.abs(left)} ${Math.abs(left) === 1 ? 'day' : 'days'}`;
  const says =
    left < 0
      ? `${counted} overdue`
      : left === 0
        ? 'today'
        : left === 1
          ? 'tomorrow'
          : `in ${counted}`;
  return `${dayWords(due)}, ${says}`;
}

/** What is still to come in of a job; less than nothing where more was paid than it costs. Undefined without a price. */
export const toCome = ({ price, paid = 0 }: JobLine): number | undefined =>
  price === undefined || 'says' in price
    ? undefined
    : Math.round((price.amount - paid) * 100) / 100;

/** What some jobs come to, in one currency. */
export interface JobSum {
  readonly says: string;
  readonly count: number;
  /** Of each currency, in the order in which they come: what is still to come in, and what was paid. */
  readonly amounts: readonly {
    readonly currency: string;
    readonly amount: number;
    readonly paid: number;
  }[];
  /** Jobs that have no price: they are in none of the sums. */
  readonly without: number;
  /** Some of the prices are those of before the last change. */
  readonly hasOld: boolean;
}

const STAGES: readonly (readonly [says: string, states: readonly (JobState | undefined)[]])[] = [
  ['Asked and quoted', [undefined, 'asked', 'quoted']],
  ['Accepted and in the shop', ['accepted', 'in the shop']],
  ['Delivered, not paid', ['delivered']],
];

/**
 * What is still to come in of the jobs that are not paid, by how far they are; a stage without any is left out. What was
 * paid too much for one is not taken off the others: its own line says so.
 */
export function openSums(lines: readonly JobLine[]): readonly JobSum[] {
  return STAGES.flatMap(([says, states]): JobSum[] => {
    const those = lines.filter(({ facts }) => states.includes(facts.state));
    if (those.length === 0) return [];
    const amounts = new Map<string, { readonly amount: number; readonly paid: number }>();
    for (const line of those) {
      const { price, paid = 0 } = line;
      if (price === undefined || 'says' in price) continue;
      const before = amounts.get(price.currency) ?? { amount: 0, paid: 0 };
      amounts.set(price.currency, {
        amount: before.amount + Math.max(0, toCome(line) ?? 0),
        paid: before.paid + paid,
      });
    }
    return [
      {
        says,
        count: those.length,
        amounts: [...amounts].map(([currency, sum]) => ({ currency, ...sum })),
        without: those.filter(({ price }) => price === undefined || 'says' in price).length,
        hasOld: those.some(({ isOld, price }) => isOld && price !== undefined),
      },
    ];
  });
}
