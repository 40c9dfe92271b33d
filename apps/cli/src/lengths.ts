import { type Format, ownFormat, ownFromMm } from '@kerfbook/drawing';
import { showValue, type Workbook } from '@kerfbook/workbook';

/** Writes lengths given in mm as the workbook writes lengths. */
export function lengthFormat({ units, currency }: Workbook): Format {
  return ownFormat(
    units,
    (own) =>
      showValue({ kind: 'number', number: own }, { quantity: 'length', system: units, currency })
        .text,
  );
}

/** A length in mm as a number in the workbook's own unit, free of what converting adds. */
export const ownLength = (mm: number, { units }: Workbook): number =>
  Number(ownFromMm(mm, units).toPrecision(12));
