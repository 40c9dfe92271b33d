import type { Complaint } from '../faults/catalogue.ts';

/**
 * What came of the names and rows of two workbooks that were put together, each with a code that never
 * changes its meaning, as `FAULTS` has them for documents and edits.
 */
const SENTENCES = {
  J1: (name: string, sheet: string) =>
    `${name} was an input on both sides: the one of this workbook counts, and ${sheet} follows it.`,
  J2: (name: string, sheet: string, from: string) =>
    `${name} is worked out on ${from} now: ${sheet} follows it.`,
  J3: (name: string, now: string, sheet: string) =>
    `Both workbooks work out ${name}, each in its own way: that of ${sheet} is called ${now}.`,
  J4: (name: string, now: string, sheet: string) =>
    `Both workbooks have ${name}, and they do not mean the same by it: that of ${sheet} is called ${now}.`,
  J5: (name: string, now: string, sheet: string) =>
    `${name} could not follow the other workbook, since it would be worked out from itself: that of ${sheet} is called ${now}.`,
  J6: (part: string, sheet: string) =>
    `Both workbooks have a part called ${part}: it stands twice on ${sheet}. Rename one, or delete one of the rows.`,
  J7: (name: string) =>
    `There are a hundred cells named like ${name} already: the one that came in has no name.`,
} as const;

export function joinComplaint<C extends keyof typeof SENTENCES>(
  code: C,
  ...words: Parameters<(typeof SENTENCES)[C]>
): Complaint {
  const sentence = SENTENCES[code] as (...words: Parameters<(typeof SENTENCES)[C]>) => string;
  return { code, says: sentence(...words) };
}
