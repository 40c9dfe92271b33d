import type { OpenWorkbook } from '@kerfbook/workbook';

/** What stands at the head of every page, in two lines of a left and a right half. */
export interface PageHead {
  readonly title: string;
  /** Beside the title: whom it is for, or the day where that is not said. */
  readonly beside: string;
  /** Under the title: job number, revision, due date. */
  readonly under: string;
  /** Beside those: the day it is put on paper, where it does not stand above. */
  readonly day: string;
}

/** The head of a workbook's pages, put on paper on a day. What the workbook does not say is left out. */
export function pageHead(
  { head, title }: Pick<OpenWorkbook, 'head' | 'title'>,
  on: Date,
): PageHead {
  const { customer, job, due, revision } = head;
  const under = [
    job === undefined ? undefined : `Job ${job}`,
    revision === undefined ? undefined : `Revision ${revision}`,
    due === undefined ? undefined : `Due ${dayText(new Date(`${due}T00:00:00`))}`,
  ];
  const day = `Printed ${dayText(on)}`;
  return {
    title,
    beside: customer === undefined ? day : `For ${customer}`,
    under: under.filter((one) => one !== undefined).join(' · '),
    day: customer === undefined ? '' : day,
  };
}

/** A day with its month in letters, which no country reads another way: `14 Mar 2026`. */
export const dayText = (day: Date): string =>
  `${day.getDate()} ${MONTHS[day.getMonth()] ?? ''} ${day.getFullYear()}`;

const MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

/** What is said of the units at the foot of a page. */
export const unitsText = ({ units }: Pick<OpenWorkbook, 'units'>): string =>
  units === 'us' ? 'Sizes in inches' : 'Sizes in millimeters';
