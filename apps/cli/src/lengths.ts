import { ownFromMm } from '@kerfbook/drawing';
import type { Workbook } from '@kerfbook/workbook';

/** A length in mm as a number in the workbook's own unit, free of what converting adds. */
export const ownLength = (mm: number, { units }: Workbook): number =>
  Number(ownFromMm(mm, units).toPrecision(12));
