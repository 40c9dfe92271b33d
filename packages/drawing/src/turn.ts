import type { Turn } from '@kerfbook/wood';

/** The axis a side of the piece runs along. */
export function axisOf(turn: Turn, side: 'length' | 'width'): 'x' | 'y' | 'z' {
  const place = turn.indexOf(side === 'length' ? 'L' : 'W');
  if (place === 0) return 'x';
  return place === 1 ? 'y' : 'z';
}
