import type { Dimension } from '../dimensions.ts';
import { type Layout, layOut, linesOf, type PlacedDimension } from '../layout.ts';
import type { Format } from '../units.ts';
import type { Rectangle, Segment } from '../views.ts';

/** Dimensions in their places, and those that have none. */
export interface ClearLayout {
  /** Around what is shown. */
  readonly layout: Layout;
  /** Sizes that no line has room for, to be told in words. */
  readonly unplaced: readonly Dimension[];
}

/**
 * Dimensions around a window, with none written over another one. Each side is laid out for itself; in a picture as
 * small as a detail's writing of one side can come to stand where another side's is: the later one gives way.
 * @param sizes the most important first
 */
export function clearLayout(
  sizes: readonly Dimension[],
  bounds: Rectangle,
  format: Format,
  unit: number,
): ClearLayout {
  let wanted = sizes;
  for (;;) {
    const layout = layOut({ dimensions: wanted, bounds, format, unit });
    const inWay = firstInWay(layout.dimensions, wanted, unit);
    if (inWay === undefined) {
      const placed = new Set(layout.dimensions.map(({ dimension }) => dimension));
      return { layout, unplaced: sizes.filter((one) => !placed.has(one)) };
    }
    wanted = wanted.filter((one) => one !== inWay);
  }
}

/** Of two dimensions that are in each other's way the less important one. */
function firstInWay(
  placed: readonly PlacedDimension[],
  wanted: readonly Dimension[],
  unit: number,
): Dimension | undefined {
  for (const one of placed) {
    for (const other of placed) {
      if (one.dimension.side === other.dimension.side) continue;
      const isOver =
        share(one.label.box, other.label.box) ||
        linesOf(other, unit).some((line) => share(one.label.box, roomOf(line)));
      if (!isOver) continue;
      const [first, second] = [one.dimension, other.dimension];
      return wanted.indexOf(first) > wanted.indexOf(second) ? first : second;
    }
  }
  return undefined;
}

const roomOf = ({ x1, y1, x2, y2 }: Segment): Rectangle => ({
  left: Math.min(x1, x2),
  right: Math.max(x1, x2),
  bottom: Math.min(y1, y2),
  top: Math.max(y1, y2),
});

const share = (one: Rectangle, other: Rectangle): boolean =>
  one.left < other.right &&
  other.left < one.right &&
  one.bottom < other.top &&
  other.bottom < one.top;
