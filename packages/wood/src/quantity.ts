/**
 * What a number stands for. A quantity decides the unit a number is in: every workbook is `us` or
 * `metric`, and all of its formulas are in that system's own units (see {@link OWN_UNITS}).
 */
export const QUANTITIES = [
  'number',
  'count',
  'ratio',
  'percent',
  'moisture',
  'humidity',
  'length',
  'area',
  'volume',
  'liquid',
  'boardfeet',
  'mass',
  'temperature',
  'angle',
  'force',
  'pressure',
  'load_per_length',
  'coverage',
  'movement_rate',
  'money',
  'money_per_boardfoot',
  'money_per_hour',
  'duration',
  'date',
  'text',
  'logical',
] as const;

/** What a number is. Units by system: `OWN_UNITS`. */
export type Quantity = (typeof QUANTITIES)[number];

/** Inches, pounds and °F, or millimetres, kilograms and °C. */
export type UnitSystem = 'us' | 'metric';

/** The unit a workbook's formulas use for a quantity, as shown to people. Empty: a bare number. */
export const OWN_UNITS: Record<Quantity, Record<UnitSystem, string>> = {
  number: { us: '', metric: '' },
  count: { us: '', metric: '' },
  ratio: { us: '', metric: '' },
  percent: { us: '%', metric: '%' },
  moisture: { us: '%', metric: '%' },
  humidity: { us: '%', metric: '%' },
  length: { us: 'in', metric: 'mm' },
  area: { us: 'in²', metric: 'mm²' },
  volume: { us: 'in³', metric: 'mm³' },
  liquid: { us: 'fl oz', metric: 'mL' },
  boardfeet: { us: 'bd ft', metric: 'bd ft' },
  mass: { us: 'lb', metric: 'kg' },
  temperature: { us: '°F', metric: '°C' },
  angle: { us: '°', metric: '°' },
  force: { us: 'lb', metric: 'N' },
  pressure: { us: 'psi', metric: 'MPa' },
  load_per_length: { us: 'lb/in', metric: 'N/mm' },
  coverage: { us: 'in²/fl oz', metric: 'mm²/mL' },
  movement_rate: { us: 'per 1 %', metric: 'per 1 %' },
  money: { us: '', metric: '' },
  money_per_boardfoot: { us: '/bd ft', metric: '/bd ft' },
  money_per_hour: { us: '/h', metric: '/h' },
  duration: { us: 'h', metric: 'h' },
  date: { us: '', metric: '' },
  text: { us: '', metric: '' },
  logical: { us: '', metric: '' },
};

/** Exact by definition (NIST SP 811, appendix B). */
export const MM_PER_INCH = 25.4;
/** Exact by definition (NIST SP 811, appendix B). */
export const KG_PER_POUND = 0.45359237;
/** Standard gravity times the pound: exact by definition (NIST SP 811, appendix B). */
export const NEWTON_PER_POUND_FORCE = 4.4482216152605;
/** US fluid ounce: 1/128 of a gallon of 231 in³, exact. */
export const ML_PER_FLUID_OUNCE = 29.5735295625;

const METRIC_PER_US: Partial<Record<Quantity, number>> = {
  length: MM_PER_INCH,
  area: MM_PER_INCH ** 2,
  volume: MM_PER_INCH ** 3,
  liquid: ML_PER_FLUID_OUNCE,
  mass: KG_PER_POUND,
  force: NEWTON_PER_POUND_FORCE,
  pressure: NEWTON_PER_POUND_FORCE / MM_PER_INCH ** 2,
  load_per_length: NEWTON_PER_POUND_FORCE / MM_PER_INCH,
  coverage: MM_PER_INCH ** 2 / ML_PER_FLUID_OUNCE,
};

/** A number in a system's own unit, turned into the us unit, in which the pure functions work. */
export function usFromOwn(quantity: Quantity, value: number, system: UnitSystem): number {
  if (system === 'us') return value;
  if (quantity === 'temperature') return value * 1.8 + 32;
  const factor = METRIC_PER_US[quantity];
  return factor === undefined ? value : value / factor;
}

/** The inverse of {@link usFromOwn}. */
export function ownFromUs(quantity: Quantity, value: number, system: UnitSystem): number {
  if (system === 'us') return value;
  if (quantity === 'temperature') return (value - 32) / 1.8;
  const factor = METRIC_PER_US[quantity];
  return factor === undefined ? value : value * factor;
}
