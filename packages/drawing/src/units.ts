import { TOLERANCE } from '@kerfbook/functions/shaped';
import { type OpenWorkbook, showValue } from '@kerfbook/workbook';

type UnitSystem = OpenWorkbook['units'];

export { TOLERANCE };

/** Exact by definition (NIST SP 811, appendix B). */
const MM_PER_INCH = 25.4;

/** A length in a workbook's own unit, in mm. */
export function mmFromOwn(value: number, units: UnitSystem): number {
  return units === 'us' ? value * MM_PER_INCH : value;
}

/** A length in mm, in a workbook's own unit. */
export function ownFromMm(mm: number, units: UnitSystem): number {
  return units === 'us' ? mm / MM_PER_INCH : mm;
}

/** Writes a length for a drawing. */
export type Format = (mm: number) => string;

/**
 * Turns a writer of lengths in the workbook's own unit into one for a drawing.
 * The rounding takes away what converting to mm and back adds, so that 84 is written as 84.
 */
export function ownFormat(units: UnitSystem, write: (own: number) => string): Format {
  return (mm) => write(Number(ownFromMm(mm, units).toPrecision(12)));
}

/** Writes lengths for a drawing as a workbook writes them in its cells. */
export const bookFormat = ({ units, currency }: Pick<OpenWorkbook, 'units' | 'currency'>): Format =>
  ownFormat(
    units,
    (own) =>
      showValue({ kind: 'number', number: own }, { quantity: 'length', system: units, currency })
        .text,
  );
