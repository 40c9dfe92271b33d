import type { Part } from './parts.ts';

/** Room between two pieces, as a share of the longest piece, and at the least, mm. */
const GAP = 0.03;
const LEAST_GAP = 12;
/** How much wider than deep they lie, about as the pictures are. */
const ACROSS = 1.5;

/**
 * The parts as they are drawn: each in its place, and where none has one, all of them side by side on the floor, so
 * that there is a picture of what is to be cut before anybody said where it goes.
 * @param parts with shapes and what joints cut, as they are read
 */
export function partsDrawn(parts: readonly Part[]): readonly Part[] {
  return parts.some(({ placing }) => placing !== undefined) ? parts : laidOut(parts);
}

/** Flat, with their length along, in the order of the table: from left to right, and on nearer once a row is full. */
function laidOut(parts: readonly Part[]): readonly Part[] {
  const longest = parts.reduce((most, { length }) => Math.max(most, length), 0);
  const gap = Math.max(LEAST_GAP, GAP * longest);
  const area = parts.reduce(
    (sum, { count, length, width }) => sum + count * (length + gap) * (width + gap),
    0,
  );
  const across = Math.max(longest + gap, Math.sqrt(area * ACROSS));
  const depth = area / across;
  let [left, far, next] = [0, 0, 0];
  return parts.map((part): Part => {
    const [along, aside] = [part.length + gap, part.width + gap];
    const inColumn = Math.min(part.count, Math.max(1, Math.floor(depth / aside)));
    const columns = Math.ceil(part.count / inColumn);
    if (left > 0 && left + columns * along > across) [left, far] = [0, next];
    // The first stands farthest away, so that the page is read as any other.
    const placing = {
      turn: 'LWT',
      together: false,
      lines: [
        { start: left, step: along, count: columns },
        { start: -far - part.width, step: -aside, count: inColumn },
        { start: 0, step: 0, count: 1 },
      ],
    } as const;
    left += columns * along;
    next = Math.max(next, far + inColumn * aside);
    return { ...part, placing, aside: true };
  });
}
