/** A stretch of a line, from the lower end to the higher one. */
export type Span = readonly [from: number, to: number];

/** The same stretch of the line in as few spans as possible, in order. */
export function mergeSpans(spans: readonly Span[]): Span[] {
  if (spans.length < 2) return spans.filter(([from, to]) => to > from);
  const sorted = spans.filter(([from, to]) => to > from).sort((a, b) => a[0] - b[0]);
  const merged: [number, number][] = [];
  for (const [from, to] of sorted) {
    const last = merged.at(-1);
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else merged.push([from, to]);
  }
  return merged;
}

/** What is left of merged spans when merged others are taken away. */
export function subtractSpans(spans: readonly Span[], gone: readonly Span[]): Span[] {
  const left: Span[] = [];
  for (const [from, to] of spans) {
    let start = from;
    for (const [goneFrom, goneTo] of gone) {
      if (goneTo <= start || goneFrom >= to) continue;
      if (goneFrom > start) left.push([start, goneFrom]);
      start = goneTo;
    }
    if (start < to) left.push([start, to]);
  }
  return left;
}

export const overlap = (a: Span, b: Span): boolean => a[0] < b[1] && b[0] < a[1];
