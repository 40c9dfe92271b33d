import type { Part } from './parts.ts';
import { around, type Piece } from './scene.ts';
import type { Format } from './units.ts';

/** Parts named one by one; past it a listener has lost the first. */
const MOST_NAMED = 20;

/**
 * A drawing for those who do not see it: what is drawn over all, then each part with its count and
 * sizes. "84 long, 42 wide and 30 high over all. Top: 1 1/2 by 42 by 84. 4 of Leg: …"
 */
export function sizesInWords(pieces: readonly Piece[], format: Format): string {
  const counts = new Map<Part, number>();
  for (const { part } of pieces) counts.set(part, (counts.get(part) ?? 0) + 1);
  const parts = [...counts].sort(([a], [b]) => a.at.row - b.at.row);
  const named = parts.slice(0, MOST_NAMED).map(([part, count]) => partInWords(part, count, format));
  const more = parts.length - named.length;
  const rest = more > 0 ? [`And ${more} more ${more === 1 ? 'part' : 'parts'}.`] : [];
  return [...overAll(pieces, format), ...named, ...rest].join(' ');
}

function overAll(pieces: readonly Piece[], format: Format): readonly string[] {
  if (pieces.some(({ part }) => part.aside === true)) return ['Parts side by side.'];
  const whole = around(pieces);
  if (whole === undefined) return [];
  const { from, to } = whole;
  const [long, wide, high] = [to.x - from.x, to.y - from.y, to.z - from.z].map(format);
  return [`${long} long, ${wide} wide and ${high} high over all.`];
}

function partInWords(part: Part, count: number, format: Format): string {
  const sizes = [part.thickness, part.width, part.length].map(format).join(' by ');
  return `${count === 1 ? part.name : `${count} of ${part.name}`}: ${sizes}.`;
}
