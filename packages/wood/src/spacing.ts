import { ceilSettled } from './exact.ts';
import { type Guarded, leftOver, notNegative, positive, sensibleCount } from './guards.ts';

interface Given {
  readonly argument: Guarded;
  readonly value: number;
}

/**
 * Points (clamps, fasteners) along a length, one at each end of the stretch that lies `endDistance`
 * inside both ends, so that no gap between neighbours exceeds the spacing.
 * @returns count, 1 or more; 1 when the end distances meet in the middle
 */
export function pointsAlong(length: Given, spacing: Given, ends: Given, of: string): number {
  const whole = positive(length.argument, length.value);
  const gap = positive(spacing.argument, spacing.value);
  const inset = notNegative(ends.argument, ends.value);
  const stretch = Math.max(0, whole - 2 * inset);
  if (whole - 2 * inset < -1e-9)
    leftOver(0, {
      argument: ends.argument,
      got: inset,
      under: whole / 2,
      so: `room for ${of} is left`,
    });
  return sensibleCount(ceilSettled(stretch / gap) + 1, spacing.argument, gap, of);
}
