/** Whether two values of a saved workbook say the same, in whatever order their keys stand. */
export function same(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const keys = Object.keys(one);
  return (
    keys.length === Object.keys(other).length &&
    keys.every((key) => Object.hasOwn(other, key) && same(one[key], other[key]))
  );
}

/** What comes of something that two had from one earlier state: who changed it, or the second of both. */
export function ofThree<T>(
  was: T,
  first: T,
  second: T,
): { readonly value: T; readonly both: boolean } {
  if (same(first, second) || same(was, second)) return { value: first, both: false };
  return { value: second, both: !same(was, first) };
}

/** The same of each property of two; `both`: those that both made something else of. */
export function ofThreeEach<T extends object>(
  was: Partial<T>,
  first: Partial<T>,
  second: Partial<T>,
): { readonly value: Partial<T>; readonly both: readonly (keyof T & string)[] } {
  const value: Partial<T> = {};
  const both: (keyof T & string)[] = [];
  const all = { ...was, ...first, ...second };
  for (const key of Object.keys(all) as (keyof T & string)[]) {
    const one = ofThree(was[key], first[key], second[key]);
    if (one.value !== undefined) value[key] = one.value;
    if (one.both) both.push(key);
  }
  return { value, both };
}
