import { sayDay } from '../calendar/day-numbers.ts';
import type { Likelihood } from './likelihood.ts';

/**
 * By which days it is done in half of the tries, in nine and in one of ten: `In half of them it is done by Wed 9 Dec
 * 2026, in nine of ten by Thu 10 Dec 2026, in one of ten by Tue 8 Dec 2026.` No day is said twice.
 */
export function usualDaysSaid({ p10, p50, p90 }: Pick<Likelihood, 'p10' | 'p50' | 'p90'>): string {
  // Fewer than one of ten came before the day, and nine of ten by it.
  if (p10 === p90) return `In more than eight of ten it is done on ${sayDay(p50)}.`;
  if (p50 === p90) {
    return `In half of them and in nine of ten it is done by ${sayDay(p90)}, in one of ten by ${sayDay(p10)}.`;
  }
  if (p10 === p50) {
    return `In one of ten and in half of them it is done by ${sayDay(p50)}, in nine of ten by ${sayDay(p90)}.`;
  }
  return `In half of them it is done by ${sayDay(p50)}, in nine of ten by ${sayDay(p90)}, in one of ten by ${sayDay(p10)}.`;
}
