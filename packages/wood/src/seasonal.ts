import { numberOf } from './arguments.ts';
import { CUT_ARGUMENT, movement } from './moisture.ts';

/** Arguments of whatever is built at one moisture and used at another, named as those of MOVEMENT are. */
export const BUILT_AT = numberOf(
  'moisture',
  'moisture_from',
  'moisture content it is cut at, percent, 0 to 30',
);
export const USED_AT = numberOf(
  'moisture',
  'moisture_to',
  'moisture content in that season, percent, 0 to 30',
);
export const HUMID_AT = numberOf(
  'moisture',
  'moisture_to',
  'moisture content in the most humid season, percent, 0 to 30',
);
export const CUT = CUT_ARGUMENT;

/** Change of an inch of width, in in; growth is positive. */
export const changePerInch = (
  species: string,
  from: number,
  to: number,
  cut: string | number = 'flat',
): number => movement(1, species, from, to, cut);

/** Where widths that follow the seasons come from. */
export const SEASONS =
  'Wood Handbook (FPL-GTR-190, 2010), equation 13-2 with the coefficients of table 13-5';
