/** Hours to a hundredth, as they are said: `2.25 h`. */
export const hoursSaid = (hours: number): string => `${Math.round(hours * 100) / 100} h`;

/** By how many hours it differs, with its sign. */
export const differenceSaid = (hours: number): string => {
  const rounded = Math.round(hours * 100) / 100;
  return rounded === 0 ? 'none' : `${rounded > 0 ? '+' : '−'}${Math.abs(rounded)} h`;
};
