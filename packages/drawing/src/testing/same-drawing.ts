import type { Segment } from '../views.ts';
import { addStretch, leftBetween } from './stretch-list.ts';

/** Nearer together than this, lines are one, mm. */
const NEAR = 1e-3;

const length = (s: Segment): number => Math.hypot(s.x2 - s.x1, s.y2 - s.y1);

/** What one of two lists draws and the other does not, however they part their lines. */
export const unlike = (ours: readonly Segment[], theirs: readonly Segment[]): Segment[] => [
  ...ours.filter((one) => !drawnBy(theirs, one)),
  ...theirs.filter((one) => !drawnBy(ours, one)),
];

function drawnBy(segments: readonly Segment[], one: Segment): boolean {
  const long = length(one);
  const [dx, dy] = [(one.x2 - one.x1) / long, (one.y2 - one.y1) / long];
  const along = (x: number, y: number): number => dx * (x - one.x1) + dy * (y - one.y1);
  const off = (x: number, y: number): number => Math.abs(dx * (y - one.y1) - dy * (x - one.x1));
  const drawn: number[] = [];
  for (const s of segments) {
    if (off(s.x1, s.y1) > NEAR || off(s.x2, s.y2) > NEAR) continue;
    const ends = [along(s.x1, s.y1), along(s.x2, s.y2)] as const;
    addStretch(drawn, Math.min(...ends), Math.max(...ends), NEAR);
  }
  const left = leftBetween(drawn, NEAR, long - NEAR);
  return left.every((to, i) => i % 2 === 0 || to - (left[i - 1] ?? 0) < NEAR);
}
