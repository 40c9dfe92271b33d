import type { Quantity } from '@kerfbook/wood';

/** Quantities whose cells hold 15 for 15 %. */
export const PERCENTS: ReadonlySet<Quantity> = new Set<Quantity>([
  'percent',
  'moisture',
  'humidity',
]);

const WRITTEN = /%|percent|pct/i;

/**
 * Whether a number in a cell for percentages may have been meant a hundred times as large: 0.3 for 30 %.
 * Where its unit was typed with it, it means what it says.
 */
export const isSlightPercent = (
  value: number,
  quantity: Quantity | undefined,
  typed: string | undefined,
): boolean =>
  quantity !== undefined &&
  PERCENTS.has(quantity) &&
  value !== 0 &&
  Math.abs(value) < 1 &&
  !(typed !== undefined && WRITTEN.test(typed));
