import type { OpenWorkbook } from '@kerfbook/workbook';

/** mm of the furniture for one on the page, from the largest drawing to the smallest. */
export const SCALES: Readonly<Record<OpenWorkbook['units'], readonly number[]>> = {
  /** Scales of a ruler in feet and inches, 3 in to 1/16 in for a foot, then feet for an inch; values from memory. */
  us: [
    1 / 48,
    1 / 24,
    1 / 12,
    1 / 8,
    1 / 4,
    1 / 2,
    1,
    2,
    4,
    8,
    12,
    16,
    24,
    32,
    48,
    64,
    96,
    192,
    240,
    480,
    1200,
  ],
  /** ISO 5455 (value from memory). */
  metric: [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000],
};

/** Inches on the page that stand for a foot, as a ruler has them. */
const FOR_A_FOOT: Readonly<Record<number, string>> = {
  4: '3',
  8: '1 1/2',
  12: '1',
  16: '3/4',
  24: '1/2',
  32: '3/8',
  48: '1/4',
  64: '3/16',
  96: '1/8',
  192: '1/16',
};

/** A scale as shops of these units write it: `1 1/2 in = 1 ft`, or `1 : 10` as ISO 5455 has it. */
export function scaleText(scale: number, units: OpenWorkbook['units']): string {
  if (units === 'metric') return scale < 1 ? `${1 / scale} : 1` : `1 : ${scale}`;
  if (scale === 1) return 'full size';
  if (scale === 2) return 'half size';
  if (scale < 1) return `${Math.round(1 / scale)} times full size`;
  const inches = FOR_A_FOOT[scale];
  return inches === undefined ? `1 in = ${scale / 12} ft` : `${inches} in = 1 ft`;
}
