import { describe, expect, it } from 'vitest';
import { dayOf } from '../calendar/day-numbers.ts';
import { usualDaysSaid } from './usual-days.ts';

const [tue, wed, thu] = ['2026-12-08', '2026-12-09', '2026-12-10'].map((day) => dayOf(day) ?? 0);

describe('the days by which it is usually done', () => {
  it.each([
    [
      [tue, wed, thu],
      'In half of them it is done by Wed 9 Dec 2026, in nine of ten by Thu 10 Dec 2026, in one of ten by Tue 8 Dec 2026.',
    ],
    [
      [tue, wed, wed],
      'In half of them and in nine of ten it is done by Wed 9 Dec 2026, in one of ten by Tue 8 Dec 2026.',
    ],
    [
      [tue, tue, wed],
      'In one of ten and in half of them it is done by Tue 8 Dec 2026, in nine of ten by Wed 9 Dec 2026.',
    ],
    [[wed, wed, wed], 'In more than eight of ten it is done on Wed 9 Dec 2026.'],
  ])('are each said once (%j)', ([p10 = 0, p50 = 0, p90 = 0], says) => {
    expect(usualDaysSaid({ p10, p50, p90 })).toBe(says);
  });
});
