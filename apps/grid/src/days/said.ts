import { type Likelihood, usualDaysSaid } from '@kerfbook/days';

/** Hours to a hundredth, as they are said: `2.25 h`. */
export const hoursSaid = (hours: number): string => `${Math.round(hours * 100) / 100} h`;

/** By how many hours it differs, with its sign. */
export const differenceSaid = (hours: number): string => {
  const rounded = Math.round(hours * 100) / 100;
  return rounded === 0 ? 'none' : `${rounded > 0 ? '+' : '−'}${Math.abs(rounded)} h`;
};

/** A share of tries, from 0 to 1: of ten thousand a few are not all, and not none. */
export const triesSaid = (share: number): string => {
  const whole = Math.round(share * 100);
  if (whole === 100 && share < 1) return 'more than 99 %';
  return whole === 0 && share > 0 ? 'less than 1 %' : `${whole} %`;
};

/** How often a promised day is kept, and by which days it is done how likely. */
export const oddsSaid = (odds: Likelihood): string =>
  `In ${triesSaid(odds.byPromise)} of ${odds.draws.toLocaleString('en-US')} tries. ${usualDaysSaid(odds)}`;
