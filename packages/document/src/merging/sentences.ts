import type { Complaint } from '../faults/catalogue.ts';

/**
 * What two makers changed so that it does not go together, each with a code that never changes its
 * meaning, as `FAULTS` has them for documents and edits. Makers are called as their logs are.
 */
const SENTENCES = {
  X1: (where: string, one: Said, other: Said) =>
    `${where} is ${one.what} in ${one.log} and ${other.what} in ${other.log}. It is ${other.what} now.`,
  X2: (where: string, one: string, other: string) =>
    `${where} was changed in ${one} and in ${other}. Both changes are kept; see whether they go together.`,
  X3: (where: string, gone: string, changed: string) =>
    `${where} was removed in ${gone} and changed in ${changed}. It is removed.`,
  X4: (what: string, where: string, one: string, other: string) =>
    `${what} were put in ${where} in ${one} and in ${other}. Both are kept, those of ${other} first; see whether the order is right.`,
  X5: (what: string, one: string, other: string) =>
    `${what} were put in another order in ${one} and in ${other}. Both were done, ${other} last; see whether the order is right.`,
  X6: (what: string, where: string, put: string, gone: string) =>
    `${what} were put in ${where} in ${put}, and what they follow was removed in ${gone}. They stand where it was.`,
  X7: (name: string, keeps: string, other: string) =>
    `${keeps} and ${other} are both named ${name}. ${keeps} keeps the name; the other has none.`,
  X8: (name: string, log: string, now: string) =>
    `Two sheets are called "${name}". That of ${log} is called "${now}" now.`,
  X9: (where: string, log: string, gone: string) =>
    `${where}, as it is in ${log}, uses cells that were removed in ${gone}. It shows #REF! until it is changed.`,
  X10: (where: string, log: string, gone: string) =>
    `${where}, as it is in ${log}, uses cells up to a row or column that was removed in ${gone}. It uses those up to the next one now.`,
  X11: (where: string, log: string, name: string, gone: string) =>
    `${where}, as it is in ${log}, uses the name ${name}, which no cell has any more in ${gone}. It shows #NAME? until it is changed.`,
  X12: (where: string, log: string, name: string, gone: string, now: string) =>
    `${where}, as it is in ${log}, uses the name ${name}, which was changed to ${now} in ${gone}. It uses ${now} now.`,
  X13: (table: string, log: string) =>
    `${table} ended at a row that was removed in ${log}. It ends at the row above it now.`,
  X14: (log: string, other: string) =>
    `Together, ${log} and ${other} removed every sheet. Those that are there in ${other} stay.`,
  X15: (where: string, log: string, name: string, gone: string) =>
    `${where}, as it is in ${log}, shows the cell named ${name}, and no cell has that name any more in ${gone}. It shows the name until it is changed.`,
} as const;

/** What a log says of something. */
export interface Said {
  readonly log: string;
  readonly what: string;
}

export type MergeCode = keyof typeof SENTENCES;

type Words<C extends MergeCode> = Parameters<(typeof SENTENCES)[C]>;

export function mergeComplaint<C extends MergeCode>(code: C, ...words: Words<C>): Complaint {
  const sentence = SENTENCES[code] as (...words: Words<C>) => string;
  const says = sentence(...words);
  return { code, says: says.charAt(0).toUpperCase() + says.slice(1) };
}
