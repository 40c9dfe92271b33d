import { ceilSettled } from './exact.ts';
import { between, type Guarded, positive, sensibleCount } from './guards.ts';

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
  const inset = between(ends.argument, ends.value, 0, whole / 2);
  const stretch = Math.max(0, whole - 2 * inset);
  return sensibleCount(ceilSettled(stretch / gap) + 1, spacing.argument, gap, of);
}
