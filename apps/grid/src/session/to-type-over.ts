import type { CellView } from '@kerfbook/workbook';

/**
 * Whether its formula is a start that a maker may well type over, as the price of a wood: what may be typed is stated,
 * which a formula alone never needs. Tinted like an input, since "change any tinted cell" is said of it too.
 */
export const isToTypeOver = ({ formula, allow }: CellView): boolean =>
  formula !== undefined && allow !== undefined;
