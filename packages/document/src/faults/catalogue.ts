import { DOCUMENT_VERSION, LIMITS } from '../format/schema.ts';

/**
 * What can go wrong with a workbook or an edit, each with a code that never changes its meaning.
 * Codes of entries (`Q…`), formulas and cells (`F…`, `E…`) are declared beside the code that
 * finds them; this file holds documents (`D…`) and edits (`W…`). A retired code stays retired.
 */
export const FAULTS = {
  D1: (why: string) => `This is not a workbook: it is not readable JSON (${why}).`,
  D2: () => 'This file is JSON, but not a Kerfbook workbook: its first key should be "kerfbook".',
  D3: (version: string) =>
    `This workbook was written by a newer Kerfbook (document version ${version}; this one reads 1 to ${DOCUMENT_VERSION}). Open it with a newer Kerfbook. The file was left as it is.`,
  D4: (where: string, why: string) => `The workbook is damaged at ${where}: ${why}.`,
  D5: (size: string) => `The file is ${size}; a workbook is at most 20 MB.`,
  D7: (megabytes: string) =>
    `This workbook would take ${megabytes} MB to save; a workbook is at most 20 MB. Split it, then open its parts.`,
  D6: (version: string) =>
    `"kerfbook": ${version} is not a document version; they are 1 to ${DOCUMENT_VERSION}.`,

  W1: (sheet: string) => `There is no sheet with the id ${sheet} in this workbook.`,
  W2: (what: string) =>
    `${what} is outside what a sheet can hold: ${LIMITS.rows} rows and ${LIMITS.columns} columns.`,
  W3: (name: string, where: string) => `The name ${name} already belongs to ${where}.`,
  W4: (name: string, users: string) =>
    `${name} is used by ${users}. Change these formulas first, or rename the cell instead.`,
  W5: (name: string) => `There is no cell named ${name}.`,
  W6: (name: string, why: string) => `A sheet cannot be called "${name}": ${why}.`,
  W7: () => 'A workbook needs at least one sheet; this is the last one.',
  W8: (id: string) => `The id ${id} is taken already.`,
  W9: (rows: string) => `These rows or columns do not exist: ${rows}.`,
  W10: (name: string, why: string) => `A cell cannot be called "${name}": ${why}`,
  W11: (address: string) => `${address} has no override, so there is no formula to restore.`,
  W12: (where: string, why: string) => `That would leave the workbook damaged at ${where}: ${why}.`,
  W13: () =>
    `A cell holds ${LIMITS.text} characters; this entry is longer. Split it over several cells.`,
  W14: (kind: string) =>
    `This Kerfbook does not know the change "${kind}". It may come from a newer one.`,
  W16: () => 'Something long is still being pasted or filled. Wait until it is done, or stop it.',
  W17: (most: number) => `Rows can be in at most ${most} groups, one inside the other.`,
  W19: () =>
    'This change could not be worked out. Nothing was changed. Try it in smaller steps, or write the formula another way.',
  W20: (where: string, letters: number) =>
    `The formula of ${where} would take ${letters} characters to save; ${LIMITS.kept} is the most. Split it over several cells first.`,
  W21: (megabytes: string) =>
    `With this the workbook would take ${megabytes} MB to save; ${LIMITS.book / 1024 / 1024} MB is the most. Nothing was changed. Add less, or start another workbook for it.`,
  W22: (check: string, letters: number) =>
    `The sentence of the check "${check}" would have ${letters} characters; ${LIMITS.text} is the most. Shorten it first.`,
  W23: (name: string, where: string, letters: number) =>
    `With the name ${name} the formula of ${where} would have ${letters} characters; ${LIMITS.formula} is the most. Choose a shorter name, or split the formula first.`,
  W24: (what: string, most: number) => `A workbook holds at most ${most} ${what}.`,
  W25: (name: string) =>
    `Another cell is named ${name} already: it keeps the name, and this one has none.`,
  W26: (what: string) => `There is no longer a place for ${what}, so it is left out.`,
  W27: (name: string, other: string) =>
    `Another sheet is called "${name}" already: this one is called "${other}".`,
  W28: (what: string) => `What ${what} were to follow is no longer there. They come last.`,
  W29: (units: string) => `This workbook is already in ${units}.`,
  W31: (title: string, theirs: string, ours: string) =>
    `"${title}" counts in ${theirs}, and this workbook in ${ours}. Change the units of one first.`,
  W30: (sheet: string) =>
    `${sheet} is the only sheet that is not hidden, and one has to stay. Show another one first.`,
  W15: (what: string) =>
    `${what} stays as it is: the formulas of this workbook are locked, and only its inputs can be changed. Choose "Unlock formulas" in the menu first.`,
} as const;

/** A code of the catalogue: a letter for the kind, and a number that never changes. */
export type FaultCode = keyof typeof FAULTS;

/** What is wrong, for a person: a stable code and one sentence. */
export interface Complaint {
  /** Of the catalogue; it stays when the sentence is put better. */
  readonly code: string;
  /** What was wrong, what was expected, what to do. */
  readonly says: string;
}

type Words<C extends FaultCode> = Parameters<(typeof FAULTS)[C]>;

export function complaint<C extends FaultCode>(code: C, ...words: Words<C>): Complaint {
  const sentence = FAULTS[code] as (...words: Words<C>) => string;
  return { code, says: sentence(...words) };
}

/** A result that says no. */
export interface RefusedResult extends Complaint {
  /** Nothing was done. */
  readonly ok: false;
  /** What was thrown on the way, for who looks for its cause; never shown. */
  readonly thrown?: unknown;
}

/** A result that says no: returned, never thrown, so that nothing half-done is left behind. */
export function refuse<C extends FaultCode>(code: C, ...words: Words<C>): RefusedResult {
  return { ok: false, ...complaint(code, ...words) };
}
