import { nameKey } from '@kerfbook/document';

/** Letters that a sheet's name has at most in the open format, counted in UTF-16. */
export const LONGEST_SHEET_NAME = 31;
const FORBIDDEN = /[[\]:*?/\\]/g;
/** Readers keep this one for themselves. */
const KEPT_BACK = new Set(['history']);

/**
 * Names of sheets as an office program takes them, in their order: at most 31 letters, without letters that mean
 * something in its references, each once. What is longer is cut and numbered.
 * @param names as they are in the workbook
 * @param taken names that are given already
 */
export function sheetNames(
  names: readonly string[],
  taken: readonly string[] = [],
): readonly string[] {
  const used = new Set(taken.map(nameKey));
  return names.map((name) => {
    const given = free(plain(name), used);
    used.add(nameKey(given));
    return given;
  });
}

function plain(name: string): string {
  const words = name
    .replaceAll(FORBIDDEN, ' ')
    .replaceAll(/^'+|'+$/g, '')
    .trim();
  return KEPT_BACK.has(nameKey(words)) || words === '' ? `${words}_`.trim() : words;
}

function free(name: string, used: ReadonlySet<string>): string {
  const short = cut(name, LONGEST_SHEET_NAME);
  if (!used.has(nameKey(short))) return short;
  for (let number = 2; ; number += 1) {
    const mark = ` ${number}`;
    const tried = `${cut(name, LONGEST_SHEET_NAME - mark.length)}${mark}`;
    if (!used.has(nameKey(tried))) return tried;
  }
}

/** At most so many letters, none of them half of one. */
function cut(text: string, most: number): string {
  if (text.length <= most) return text;
  const half = /[\uD800-\uDBFF]/.test(text[most - 1] ?? '');
  return text.slice(0, half ? most - 1 : most).trimEnd();
}
