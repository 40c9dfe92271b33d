import type { OpenWorkbook } from '@kerfbook/workbook';
import { mmFromOwn } from './units.ts';

interface ScaleBar {
  readonly mm: number;
  readonly text: string;
}

/** The longest round length that is not longer than `most` mm: 1 in to feet, or 1, 2, 5 times a power of ten mm. */
export function scaleBar(most: number, units: OpenWorkbook['units']): ScaleBar {
  return units === 'us' ? footBar(most) : metricBar(most);
}

const INCHES = [1, 2, 3, 6];

function footBar(most: number): ScaleBar {
  const foot = mmFromOwn(12, 'us');
  if (most >= foot) {
    const feet = roundBelow(most / foot);
    return { mm: feet * foot, text: `${feet} ft` };
  }
  const inches = INCHES.filter((inch) => mmFromOwn(inch, 'us') <= most).at(-1) ?? 1;
  return { mm: mmFromOwn(inches, 'us'), text: `${inches} in` };
}

function metricBar(most: number): ScaleBar {
  const mm = roundBelow(Math.max(most, 1));
  return mm >= 1000 ? { mm, text: `${mm / 1000} m` } : { mm, text: `${mm} mm` };
}

/** The largest of 1, 2, 5, 10, 20, 50 … that is not above the value, which is at least 1. */
function roundBelow(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return power * ([5, 2, 1].find((step) => step * power <= value) ?? 1);
}
