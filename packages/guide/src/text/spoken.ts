import type { Shown } from '@kerfbook/workbook';

/** Units as they are read aloud, of one and of many. */
const UNITS: Readonly<Record<string, readonly [one: string, many: string]>> = {
  in: ['inch', 'inches'],
  ft: ['foot', 'feet'],
  mm: ['millimeter', 'millimeters'],
  cm: ['centimeter', 'centimeters'],
  m: ['meter', 'meters'],
  'in²': ['square inch', 'square inches'],
  'ft²': ['square foot', 'square feet'],
  'm²': ['square meter', 'square meters'],
  'bd ft': ['board foot', 'board feet'],
  lb: ['pound', 'pounds'],
  kg: ['kilogram', 'kilograms'],
  oz: ['ounce', 'ounces'],
  'fl oz': ['fluid ounce', 'fluid ounces'],
  gal: ['gallon', 'gallons'],
  mL: ['milliliter', 'milliliters'],
  L: ['liter', 'liters'],
  h: ['hour', 'hours'],
  min: ['minute', 'minutes'],
  d: ['day', 'days'],
  '%': ['percent', 'percent'],
  '°': ['degree', 'degrees'],
  '°F': ['degree Fahrenheit', 'degrees Fahrenheit'],
  '°C': ['degree Celsius', 'degrees Celsius'],
  psi: ['pound per square inch', 'pounds per square inch'],
  lbf: ['pound of force', 'pounds of force'],
};

const FEET = /^(-?)(\d+)' (?:(\d+) )?(?:(\d+)\/(\d+)|(\d+))?"$/;

/** A number with its unit as a screen reader is to say it: `33 and 3/16 inches`, not "33 3 16 in". */
export function spoken({ text, fraction }: Pick<Shown, 'text' | 'fraction'>, unit: string): string {
  const feet = FEET.exec(text);
  if (feet !== null) return feetAloud(feet);
  const [number, isOne] = fraction === undefined ? [text, text === '1'] : inParts(fraction);
  const words = UNITS[unit]?.[isOne ? 0 : 1] ?? unit;
  return words === '' ? number : `${number} ${words}`;
}

function inParts({
  whole,
  over,
  under,
}: NonNullable<Shown['fraction']>): readonly [words: string, isOne: boolean] {
  const part = `${over}/${under}`;
  if (whole === '' || whole === '-') return [`${whole}${part}`, true];
  return [`${whole} and ${part}`, false];
}

function feetAloud([, sign = '', feet = '', whole, over, under, plain]: RegExpExecArray): string {
  const inches =
    over === undefined ? plain : [whole, `${over}/${under}`].filter(Boolean).join(' and ');
  const said = `${sign}${feet} ${feet === '1' ? 'foot' : 'feet'}`;
  if (inches === undefined || inches === '0') return said;
  return `${said} ${inches} ${inches === '1' ? 'inch' : 'inches'}`;
}
