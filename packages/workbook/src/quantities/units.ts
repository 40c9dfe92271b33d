import { OWN_UNITS, type Quantity, type UnitSystem } from '@kerfbook/wood';

/**
 * Units a maker can type or a cell can show, each as a factor (and for temperatures an offset) to
 * the workbook's own unit. Factors are exact: NIST SP 811 (2008) appendix B and NIST Handbook 44
 * appendix C: inch 25.4 mm, pound 0.45359237 kg, US gallon 231 in³, board foot 144 in³.
 */

interface Unit {
  /** As it is shown. */
  readonly sign: string;
  /** Other ways to type it, lower case, without full stops. */
  readonly also: readonly string[];
  /** How many of the base unit (mm, mm², mm³, mL, g, N, MPa, h …) one of it is. */
  readonly per: number;
  /** Added after multiplying; temperatures only. */
  readonly offset?: number;
}

const INCH = 25.4;
const GALLON_ML = 3785.411784;
const POUND_G = 453.59237;
const POUND_FORCE_N = 4.4482216152605;

const unit = (sign: string, per: number, ...also: string[]): Unit => ({ sign, also, per });

const LENGTH = [
  unit('in', INCH, '"', '″', '”', "''", 'inch', 'inches', 'ins'),
  unit('ft', 12 * INCH, "'", '′', '’', 'foot', 'feet'),
  unit('yd', 36 * INCH, 'yard', 'yards'),
  unit('mm', 1, 'millimetre', 'millimetres', 'millimeter', 'millimeters'),
  unit('cm', 10, 'centimetre', 'centimetres', 'centimeter', 'centimeters'),
  unit('m', 1000, 'metre', 'metres', 'meter', 'meters'),
] as const;

const AREA = [
  unit('in²', INCH ** 2, 'in2', 'sq in', 'sqin'),
  unit('ft²', (12 * INCH) ** 2, 'ft2', 'sq ft', 'sqft'),
  unit('yd²', (36 * INCH) ** 2, 'yd2', 'sq yd'),
  unit('mm²', 1, 'mm2'),
  unit('cm²', 100, 'cm2'),
  unit('m²', 1e6, 'm2', 'sq m'),
] as const;

const VOLUME = [
  unit('in³', INCH ** 3, 'in3', 'cu in'),
  unit('ft³', (12 * INCH) ** 3, 'ft3', 'cu ft'),
  unit('mm³', 1, 'mm3'),
  unit('cm³', 1000, 'cm3'),
  unit('m³', 1e9, 'm3'),
] as const;

const LIQUID = [
  unit('fl oz', GALLON_ML / 128, 'floz', 'oz'),
  unit('pt', GALLON_ML / 8, 'pint', 'pints'),
  unit('qt', GALLON_ML / 4, 'quart', 'quarts'),
  unit('gal', GALLON_ML, 'gallon', 'gallons'),
  unit('mL', 1, 'ml'),
  unit('L', 1000, 'l', 'litre', 'litres', 'liter', 'liters'),
] as const;

const MASS = [
  unit('lb', POUND_G, 'lbs', 'pound', 'pounds'),
  unit('oz', POUND_G / 16, 'ounce', 'ounces'),
  unit('kg', 1000),
  unit('g', 1),
] as const;

const TEMPERATURE: readonly Unit[] = [
  { sign: '°F', also: ['f', '°f', 'ºf', 'deg f'], per: 5 / 9, offset: -160 / 9 },
  { sign: '°C', also: ['c', '°c', 'ºc', 'deg c'], per: 1 },
];

const PERCENT = [unit('%', 1, 'percent', 'pct')] as const;
const FORCE = [
  unit('lbf', POUND_FORCE_N, 'lb', 'lbs'),
  unit('N', 1, 'n'),
  unit('kN', 1000, 'kn'),
] as const;
const PSI = POUND_FORCE_N / INCH ** 2;
const PRESSURE = [
  unit('psi', PSI),
  unit('MPa', 1, 'mpa'),
  unit('kPa', 1e-3, 'kpa'),
  unit('GPa', 1e3, 'gpa'),
] as const;
const DURATION = [
  unit('h', 1, 'hr', 'hrs', 'hour', 'hours'),
  unit('min', 1 / 60, 'mins', 'minute', 'minutes'),
  unit('d', 24, 'day', 'days'),
] as const;
const ANGLE = [unit('°', 1, 'deg', 'degree', 'degrees')] as const;
const BOARD_FEET = [
  unit('bd ft', 1, 'bf', 'bdft', 'board feet', 'board foot'),
  unit('m³', 1e9 / (144 * INCH ** 3), 'm3'),
] as const;
const LOAD = [
  unit('lbf/in', POUND_FORCE_N / INCH),
  unit('lbf/ft', POUND_FORCE_N / INCH / 12),
  unit('N/mm', 1),
  unit('N/m', 1e-3),
] as const;
const COVERAGE = [
  unit('in²/fl oz', INCH ** 2 / (GALLON_ML / 128)),
  unit('ft²/gal', (12 * INCH) ** 2 / GALLON_ML, 'ft2/gal', 'sq ft/gal'),
  unit('mm²/mL', 1),
  unit('m²/L', 1000, 'm2/l'),
] as const;

const UNITS: Partial<Record<Quantity, readonly Unit[]>> = {
  length: LENGTH,
  area: AREA,
  volume: VOLUME,
  liquid: LIQUID,
  mass: MASS,
  temperature: TEMPERATURE,
  percent: PERCENT,
  moisture: PERCENT,
  humidity: PERCENT,
  force: FORCE,
  pressure: PRESSURE,
  duration: DURATION,
  angle: ANGLE,
  boardfeet: BOARD_FEET,
  load_per_length: LOAD,
  coverage: COVERAGE,
};

const BY_WORD = new Map<Quantity, ReadonlyMap<string, Unit>>();
for (const [quantity, units] of Object.entries(UNITS) as [Quantity, readonly Unit[]][]) {
  const words = new Map<string, Unit>();
  for (const one of units) {
    words.set(one.sign.toLowerCase(), one);
    for (const word of one.also) words.set(word.toLowerCase(), one);
  }
  BY_WORD.set(quantity, words);
}

const clean = (word: string): string =>
  word.trim().replace(/\.$/, '').replace(/\s+/g, ' ').toLowerCase();

export function unitOf(quantity: Quantity, word: string): Unit | undefined {
  return BY_WORD.get(quantity)?.get(clean(word));
}

/** Quantities that have a unit of this word, the likeliest first: `in` is a length. */
export function quantitiesOf(word: string): readonly Quantity[] {
  const found: Quantity[] = [];
  for (const [quantity, words] of BY_WORD) if (words.has(clean(word))) found.push(quantity);
  return found;
}

function ownUnit(quantity: Quantity, system: UnitSystem): Unit | undefined {
  return unitOf(quantity, OWN_UNITS[quantity][system]);
}

/** A number in a unit, in the workbook's own unit. Same unit: the very same number. */
export function toOwn(value: number, from: Unit, quantity: Quantity, system: UnitSystem): number {
  const own = ownUnit(quantity, system);
  if (own === undefined || own === from) return value;
  return convert(value, from, own);
}

export function fromOwn(value: number, to: Unit, quantity: Quantity, system: UnitSystem): number {
  const own = ownUnit(quantity, system);
  if (own === undefined || own === to) return value;
  return convert(value, own, to);
}

function convert(value: number, from: Unit, to: Unit): number {
  if (from.offset !== undefined || to.offset !== undefined) {
    return from.sign === '°F' ? (value - 32) / 1.8 : value * 1.8 + 32;
  }
  // Whole ratios such as 12 in to the foot stay exact when multiplied or divided once.
  const ratio = from.per / to.per;
  return ratio >= 1 ? value * cleanRatio(ratio) : value / cleanRatio(1 / ratio);
}

function cleanRatio(ratio: number): number {
  return Number(ratio.toPrecision(15));
}

export type { Unit };
