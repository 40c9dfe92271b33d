import { OWN_UNITS, type Quantity, type UnitSystem } from '@kerfbook/wood';

/** What numbers may be, as makers say it. */
export interface KnownUnit {
  /** What they are of. */
  readonly quantity: Quantity;
  /** As our units are written; empty where the quantity has none. */
  readonly unit: string;
  /** `lengths in inches` */
  readonly plural: string;
}

const of = (quantity: Quantity, unit: string, plural: string): KnownUnit => ({
  quantity,
  unit,
  plural,
});

export const INCHES = of('length', 'in', 'lengths in inches');
export const MILLIMETERS = of('length', 'mm', 'lengths in millimeters');
export const COUNTS = of('count', '', 'counts');
export const DATES = of('date', '', 'dates');
export const MONEY = of('money', '', 'amounts of money');
const CENTIMETERS = of('length', 'cm', 'lengths in centimeters');
const FEET = of('length', 'ft', 'lengths in feet');
const METERS = of('length', 'm', 'lengths in meters');
const BOARD_FEET = of('boardfeet', 'bd ft', 'board feet');
const SQUARE_INCHES = of('area', 'in²', 'areas in square inches');
const SQUARE_FEET = of('area', 'ft²', 'areas in square feet');
const SQUARE_MILLIMETERS = of('area', 'mm²', 'areas in square millimeters');
const SQUARE_METERS = of('area', 'm²', 'areas in square meters');
const POUNDS = of('mass', 'lb', 'weights in pounds');
const KILOGRAMS = of('mass', 'kg', 'weights in kilograms');
const HOURS = of('duration', 'h', 'hours');

/** What somebody may say that numbers are, where a guess is wrong. */
export const UNITS_OFFERED: readonly KnownUnit[] = [
  INCHES,
  MILLIMETERS,
  CENTIMETERS,
  FEET,
  METERS,
  COUNTS,
  MONEY,
  DATES,
  HOURS,
  BOARD_FEET,
  SQUARE_FEET,
  SQUARE_METERS,
  POUNDS,
  KILOGRAMS,
];

/** The unit that numbers of a quantity have in a workbook; empty where they have none. */
export const ownUnit = (quantity: Quantity, units: UnitSystem): string =>
  OWN_UNITS[quantity][units];

/** Units as people write them, in small letters. */
const WRITTEN: ReadonlyMap<string, KnownUnit> = new Map<string, KnownUnit>(
  (
    [
      [INCHES, ['in', 'in.', '"', '″', 'inch', 'inches', 'ins']],
      [MILLIMETERS, ['mm', 'millimeter', 'millimeters']],
      [FEET, ['ft', "'", 'feet']],
      [CENTIMETERS, ['cm']],
      [METERS, ['m']],
      [BOARD_FEET, ['bd ft', 'bf', 'bdft', 'board feet', 'bd. ft.']],
      [SQUARE_INCHES, ['in²', 'sq in', 'in2']],
      [SQUARE_FEET, ['ft²', 'sq ft', 'ft2', 'sqft']],
      [SQUARE_MILLIMETERS, ['mm²', 'mm2']],
      [SQUARE_METERS, ['m²', 'm2', 'sq m']],
      [POUNDS, ['lb', 'lbs', 'pounds']],
      [KILOGRAMS, ['kg']],
      [HOURS, ['h', 'hr', 'hrs', 'hours']],
      [of('temperature', '°F', 'temperatures in °F'), ['°f', 'deg f']],
      [of('temperature', '°C', 'temperatures in °C'), ['°c', 'deg c']],
      [of('angle', '°', 'angles'), ['°', 'deg', 'degrees']],
      [of('pressure', 'psi', 'pressures in psi'), ['psi']],
    ] as const
  ).flatMap(([known, words]) => words.map((word) => [word, known] as const)),
);

/** The unit that a word is; either spelling of meters. */
export const unitCalled = (word: string): KnownUnit | undefined =>
  WRITTEN.get(word.toLowerCase().replace(/met(?:re)(?=s?$)/, 'meter'));
