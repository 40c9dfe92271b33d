import { LIMITS } from '../format/schema.ts';
import { nameKey } from '../formula/names.ts';

const LETTERS = 'abcdefghijklmnopqrstuvwxyz0123456789';

/** Makes ids for new rows (`r`), columns (`c`), sheets (`s`) and checks (`k`). */
export type MakeId = (kind: 'r' | 'c' | 's' | 'k') => string;

/**
 * Random ids: two makers who insert a row into copies of one template get different ids, so that
 * their copies can be merged (rule F4). Six letters leave one clash in two thousand million pairs.
 */
export const randomId: MakeId = random;

function random(letter: string): string {
  let id = letter;
  for (let i = 0; i < 6; i += 1) id += LETTERS[Math.floor(Math.random() * LETTERS.length)];
  return id;
}

/** An id of this kind that is not taken yet. */
export function freshId(
  make: MakeId,
  kind: Parameters<MakeId>[0],
  taken: (id: string) => boolean,
): string {
  let id = make(kind);
  while (taken(id)) id = randomId(kind);
  return id;
}

/**
 * An id that follows from what something is, where it is not taken: two makers who add the same to copies
 * of one workbook add one and the same, and what is not the same does not clash (rule F4).
 */
export function idOf(letter: 's' | 't', what: string, taken: ReadonlySet<string>): string {
  let id = `${letter}${what}`;
  while (taken.has(id)) id = random(letter);
  return id;
}

/** A sheet's name, or the next one like it that is not taken (given by their keys). */
export function freeName(plain: string, taken: ReadonlySet<string>): string {
  let name = plain;
  for (let i = 2; taken.has(nameKey(name)); i += 1) name = `${plain} ${i}`;
  return name;
}

/** The same of a name that another sheet has already, none longer than a sheet's name may be. */
export const freeSheetName = (taken: ReadonlySet<string>, name: string): string =>
  taken.has(nameKey(name)) ? freeName(name.slice(0, LIMITS.sheetName - 4), taken) : name;
