/**
 * Stretches of a line that do not meet, in order, as from, to, from, to, …: millions are added in a
 * turn, so that no object is made for each.
 */
export type StretchList = number[];

/** Adds a stretch; what it meets, or comes as near as `gap`, becomes one with it. */
export function addStretch(list: StretchList, from: number, to: number, gap = 0): void {
  let first = list.length;
  // From the end: mostly a stretch is added behind the others.
  while (first > 0 && (list[first - 1] as number) >= from - gap) first -= 2;
  let next = first;
  while (next < list.length && (list[next] as number) <= to + gap) next += 2;
  if (next === first) list.splice(first, 0, from, to);
  else {
    list[first] = Math.min(list[first] as number, from);
    list[first + 1] = Math.max(list[next - 1] as number, to);
    if (next - first > 2) list.splice(first + 2, next - first - 2);
  }
}

/** Whether one of the stretches holds all from one place to another. */
export function holds(list: StretchList, from: number, to: number): boolean {
  for (let i = 0; i < list.length; i += 2) {
    if ((list[i] as number) <= from && (list[i + 1] as number) >= to) return true;
  }
  return false;
}

/** What is left from one place to another when stretches are taken away. */
export function leftBetween(list: StretchList, from: number, to: number): StretchList {
  const left: StretchList = [];
  let start = from;
  for (let i = 0; i < list.length; i += 2) {
    const goneFrom = list[i] as number;
    const goneTo = list[i + 1] as number;
    if (goneTo <= start || goneFrom >= to) continue;
    if (goneFrom > start) left.push(start, goneFrom);
    start = goneTo;
  }
  if (start < to) left.push(start, to);
  return left;
}
