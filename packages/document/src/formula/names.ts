import { standardFunction } from '@kerfbook/functions';

/** Why a cell cannot be called so. */
export interface NameProblem {
  /** One sentence that says why not. */
  readonly says: string;
  /** A name near it that would do. */
  readonly offer?: string;
}

/** Characters a name has at the most. */
const LONGEST_NAME = 100;

const RESERVED = new Set([
  'true',
  'false',
  'r',
  'c',
  'rc',
  '__proto__',
  'constructor',
  'prototype',
]);
const CELL_LIKE = /^([A-Za-z]+)(\d+)$/;
const ROW_AND_COLUMN = /^[Rr]\d*[Cc]\d*$/;
/** Letters of any script, the marks that belong to them, and digits. */
const LETTERS = /^[\p{L}_][\p{L}\p{M}\p{Nd}_.]*$/u;
/** Names that earlier versions took, `area_ft²` among them. */
const KEPT_LETTERS = /^[\p{L}_][\p{L}\p{M}\p{N}_.]*$/u;

/**
 * What two spellings of one name or sheet's name have in common: capitals and how an accent is put on
 * its letter do not matter (rule S7).
 */
export function nameKey(name: string): string {
  return name.toLowerCase().normalize('NFC').replaceAll('ς', 'σ');
}

/** Why a cell cannot be given this name; `undefined` when it can (rule S1). */
export function nameProblem(name: string): NameProblem | undefined {
  if (name === '') return { says: 'A name has at least one letter.' };
  if (name.length > LONGEST_NAME) {
    return { says: `A name has at most ${LONGEST_NAME} characters; this one has ${name.length}.` };
  }
  const cell = CELL_LIKE.exec(name);
  if (cell !== null) {
    return withOffer(`${name} could be the address of a cell.`, `${cell[1]}_${cell[2]}`);
  }
  if (ROW_AND_COLUMN.test(name) || RESERVED.has(nameKey(name))) {
    return withOffer(`${name} has a meaning of its own in formulas.`, `${name}_`);
  }
  if (!LETTERS.test(name)) {
    return withOffer(
      'A name begins with a letter and has letters, digits, _ and . in it.',
      inLetters(name),
    );
  }
  // A result is best named after the function of ours that gives it (`glue_stages`); the bracket tells them
  // apart. The standard functions' names stay reserved: every spreadsheet person knows SUM.
  if (standardFunction(name.toUpperCase()) !== undefined) {
    return withOffer(`${name.toUpperCase()} is a function.`, `my_${name.toLowerCase()}`);
  }
  return undefined;
}

/**
 * Why a workbook cannot hold this name. Wider than {@link nameProblem}: what an earlier version took as
 * a name, or what became a function since, locks nobody out of a workbook (rule S8).
 */
export function keptNameProblem(name: string): NameProblem | undefined {
  const problem = nameProblem(name);
  if (problem === undefined) return undefined;
  const works =
    KEPT_LETTERS.test(name) &&
    name.length <= LONGEST_NAME &&
    !CELL_LIKE.test(name) &&
    !ROW_AND_COLUMN.test(name) &&
    !RESERVED.has(nameKey(name));
  return works ? undefined : problem;
}

/** The same name with `_2`, `_3` … at its end, the first of them that is free. */
export function numbered(name: string, taken: (name: string) => boolean): string | undefined {
  for (let i = 2; i < 100; i += 1) {
    const end = `_${i}`;
    const next = `${name.slice(0, LONGEST_NAME - end.length)}${end}`;
    if (nameProblem(next) === undefined && !taken(next)) return next;
  }
  return undefined;
}

/** An offer is followed until it is a name; what never becomes one is not offered. */
function withOffer(says: string, offer: string): NameProblem {
  const cut = offer.slice(0, LONGEST_NAME);
  const problem = cut === '' ? { says } : nameProblem(cut);
  if (problem === undefined) return { says, offer: cut };
  return problem.offer === undefined ? { says } : { says, offer: problem.offer };
}

/** `area ft²` → `area_ft2`: what is no letter becomes the letter or digit it stands for, or a `_`. */
function inLetters(name: string): string {
  const plain = name
    .trim()
    .normalize('NFC')
    .replace(/[^\p{L}\p{M}\p{Nd}_.]/gu, (mark) => mark.normalize('NFKC'))
    .replace(/[^\p{L}\p{M}\p{Nd}_.]+/gu, '_')
    .replace(/(?<=[^_])_+$/, '');
  return plain.replace(/^(?![\p{L}_])/u, '_').replace(/^_(?=\p{M})/u, '_x');
}
