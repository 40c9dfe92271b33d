import type { Edit, Guide, OpenWorkbook } from '@kerfbook/workbook';

/** What is said of a plan, to be said otherwise; `undefined` takes it away. */
export type GuidePatch = { readonly [K in keyof Guide]?: Guide[K] | undefined };

/** The edit that says something of the plan otherwise; what is blank, or an empty list, is not said at all. */
export function guideEdit(book: Pick<OpenWorkbook, 'head'>, patch: GuidePatch): Edit {
  const kept = Object.entries({ ...book.head.guide, ...patch }).filter(
    ([, value]) =>
      value !== undefined && value !== '' && !(Array.isArray(value) && value.length === 0),
  );
  return {
    do: 'setBook',
    set: { guide: kept.length === 0 ? null : (Object.fromEntries(kept) as Guide) },
  };
}

/** A list with one of its members a place further on or back. */
export function moved<T>(list: readonly T[], at: number, by: 1 | -1): readonly T[] {
  const [one, other] = [list[at], list[at + by]];
  if (one === undefined || other === undefined) return list;
  return list.map((value, i) => (i === at ? other : i === at + by ? one : value));
}
