import { dressedThickness, dressedWidth, Fault, ownFromUs } from '@kerfbook/wood';
import { writeDecimal } from './digits.ts';
import { nearestFraction, writeFraction } from './fractions.ts';
import { readMeasured } from './measure.ts';
import { readNumber } from './numbers.ts';
import { type Taker, type Unread, unread } from './sentences.ts';

const TIMES = / ?(?:x|×|by) ?/i;

/** Why `2x6` or `45 x 95 mm`, typed where one length belongs, is not read; else `undefined`. */
export function sizeTrouble(plain: string, taker: Taker): Unread | undefined {
  const sizes = plain.split(TIMES);
  if (sizes.length < 2 || sizes.length > 3 || !sizes.every(isSize)) return undefined;
  const nominal = sizes.length === 2 ? `${sizes[0]}x${sizes[1]}`.replaceAll('"', '') : undefined;
  const dressed = nominal === undefined ? undefined : dressedSize(nominal, taker);
  if (nominal === undefined || dressed === undefined) return unread('Q10', plain, taker);
  return unread('Q3', nominal, dressed.thickness, dressed.width);
}

function isSize(text: string): boolean {
  return readNumber(text).kind === 'number' || readMeasured(text, 'length', 'us') !== undefined;
}

function dressedSize(nominal: string, { system }: Taker) {
  const write = (inches: number): string =>
    system === 'us'
      ? `${writeFraction(nearestFraction(inches, 16))} in`
      : `${writeDecimal(ownFromUs('length', inches, system), 1)} mm`;
  try {
    return {
      thickness: write(dressedThickness(nominal)),
      width: write(dressedWidth(nominal)),
    };
  } catch (error) {
    // No size of the softwood standard: then it is just two sizes.
    if (error instanceof Fault) return undefined;
    throw error;
  }
}
