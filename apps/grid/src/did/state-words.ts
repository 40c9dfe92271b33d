import type { CheckState } from '@kerfbook/workbook';

/** The one word for each state of a check; shape and word say it without colour. */
export const STATE_WORDS: Readonly<Record<CheckState['state'], string>> = {
  stop: 'Problem',
  care: 'Warning',
  unknown: "Can't tell",
  pass: 'OK',
};
