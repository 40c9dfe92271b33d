import { servedByClub } from './served-by-club.ts';

/** What a maker is doing: one of these is on at any time, and the top line shows which. */
export type Activity =
  | 'workbook'
  | 'drawing'
  | 'cut'
  | 'shop'
  | 'bench'
  | 'what-if'
  | 'guide'
  | 'shelf';

/** The activities as the top line says them, in the order of a job; the shelf only where a club serves the page. */
export const ACTIVITIES: readonly (readonly [activity: Activity, says: string])[] = [
  ['workbook', 'Workbook'],
  ['drawing', 'Drawing'],
  ['cut', 'Cut and buy'],
  ['shop', 'Shop sheets'],
  ['bench', 'Bench list'],
  // Where the line is narrow the first word stands for all; these two are one.
  ['what-if', 'What\u00a0if'],
  ['guide', 'Plan for others'],
  ...(servedByClub ? ([['shelf', 'Shelf']] as const) : []),
];

/** What takes the place of the workbook: an activity's page, its days or charts, its own sheets on paper, or the jobs of all workbooks. */
export type PageName = Exclude<Activity, 'workbook'> | 'days' | 'charts' | 'print' | 'jobs';

/** The activity that a page is of, as the top line has it; paper and jobs are of none. */
export const activityOf = (page: PageName | undefined): PageName | 'workbook' =>
  page === undefined
    ? 'workbook'
    : page === 'days'
      ? 'bench'
      : page === 'charts'
        ? 'what-if'
        : page;

/** A dialog of the app's own, opened from the top line or by a key. */
export type Tool = 'find' | 'replace' | 'names' | 'keys' | 'menu';

/** A dialog about workbooks, opened from the title or the menu. */
export type Showing =
  | 'title'
  | 'about'
  | 'workbooks'
  | 'unasked'
  | 'saveAs'
  | 'versions'
  | 'renewal'
  | 'shop'
  | 'compare'
  | 'join'
  | 'send'
  | 'link'
  | 'office'
  | 'publish';
