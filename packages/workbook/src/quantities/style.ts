import type { Show } from '@kerfbook/document';
import type { Quantity, UnitSystem } from '@kerfbook/wood';
import { ownUnit, type Unit, unitOf } from './units.ts';

/** What decides how a number is written and read: its cell, its workbook. */
export interface ShowContext {
  /** What the cell is for; a bare number where left out. */
  readonly quantity?: Quantity;
  /** How it is asked to be written; as its quantity usually is where left out. */
  readonly show?: Show;
  /** The workbook's units. */
  readonly system: UnitSystem;
  /** ISO 4217 code of the workbook's money. */
  readonly currency: string;
  /** The year of dates that are typed without one; this year where left out. */
  readonly year?: number;
  /** Its number is of a kind that is told in thousandths of an inch: a sag, a diameter. */
  readonly fine?: true;
}

/** How numbers of a cell are written. */
export interface Style {
  /** In which of these ways. */
  readonly as: 'fraction' | 'feet-inches' | 'decimal' | 'plain' | 'money' | 'date';
  /** Unit that is shown where it is not the quantity's own. */
  readonly unit?: string;
  /** Nearest 1/denominator; without one, a fraction that is exact, else sixteenths. */
  readonly denominator?: number;
  /** Where the value is an exact 1/exactTo, it is shown as that instead. */
  readonly exactTo?: number;
  /** How many decimals at most. */
  readonly decimals?: number;
  /** Of fractions: numbers smaller than this are shown in decimals, unless one of `exactTo` is the number itself. */
  readonly decimalsUnder?: number;
  /** Of fractions: numbers smaller than this are shown in steps half as large. */
  readonly halfStepsUnder?: number;
  /** So many decimals more at the most, where fewer than two digits of the number would be left. */
  readonly stretches?: number;
  /** Zeros at the end are kept. */
  readonly fixed?: boolean;
  /** Thousands are set apart. */
  readonly grouped?: boolean;
}

const decimal = (decimals: number, more: Partial<Style> = {}): Style => ({
  as: 'decimal',
  decimals,
  stretches: 3,
  ...more,
});
const PLAIN: Style = { as: 'plain' };
const MONEY: Style = { as: 'money' };
/** A tape is read to sixteenths; a bit of 11/64 in is shown as what it is. */
const SIXTEENTHS: Style = { as: 'fraction', denominator: 16, exactTo: 64 };
/**
 * A length of which its cell says nothing else. Under an inch a tape's thirty-seconds count, and under a quarter a
 * sixteenth is no measure any more: a sag of 0.049 in and one of 0.090 in are not the same.
 */
const LENGTHS: Style = {
  ...SIXTEENTHS,
  decimals: 3,
  stretches: 1,
  decimalsUnder: 1 / 4,
  halfStepsUnder: 1,
};
/** A sag or a diameter of any size. */
const FINE: Record<UnitSystem, Style> = {
  us: { ...LENGTHS, decimalsUnder: Number.POSITIVE_INFINITY },
  metric: decimal(2),
};
/** Decimals where a cell asks for decimals but not how many. */
const SOME_DECIMALS = 3;

/** How a quantity is written when its cell says nothing else: common practice, no source. */
const DEFAULTS: Record<Quantity, Style | Record<UnitSystem, Style>> = {
  number: PLAIN,
  count: decimal(2),
  ratio: decimal(3),
  percent: decimal(1),
  moisture: decimal(1),
  humidity: decimal(1),
  length: { us: LENGTHS, metric: decimal(1) },
  area: { us: decimal(2, { unit: 'ft²' }), metric: decimal(3, { unit: 'm²' }) },
  volume: { us: decimal(1), metric: decimal(5, { unit: 'm³' }) },
  liquid: { us: decimal(1), metric: decimal(0) },
  boardfeet: decimal(2),
  mass: decimal(1),
  temperature: decimal(1),
  angle: decimal(1),
  force: decimal(0, { grouped: true }),
  pressure: { us: decimal(0, { grouped: true }), metric: decimal(2) },
  load_per_length: decimal(2),
  coverage: { us: decimal(0, { unit: 'ft²/gal' }), metric: decimal(1, { unit: 'm²/L' }) },
  movement_rate: decimal(5),
  money: MONEY,
  money_per_boardfoot: MONEY,
  money_per_hour: MONEY,
  duration: decimal(1),
  date: { as: 'date' },
  text: PLAIN,
  logical: PLAIN,
};

/** Decimals of a unit that a cell asks for: about as fine as a shop measures. */
const UNIT_DECIMALS: Readonly<Record<string, number>> = {
  in: 3,
  ft: 3,
  yd: 3,
  mm: 1,
  cm: 2,
  m: 4,
  'in²': 1,
  'ft²': 2,
  'yd²': 2,
  'mm²': 0,
  'cm²': 1,
  'm²': 3,
  'in³': 1,
  'ft³': 3,
  'mm³': 0,
  'cm³': 1,
  'm³': 5,
  'fl oz': 1,
  pt: 2,
  qt: 2,
  gal: 2,
  mL: 0,
  L: 2,
  g: 0,
  kN: 3,
  kPa: 0,
  GPa: 2,
  min: 0,
  d: 2,
  '%': 1,
};

/** How the numbers of a cell are written. */
export function styleOf({ quantity, show, system, fine }: ShowContext): Style {
  if (fine === true && show === undefined && quantity === 'length') return FINE[system];
  const given = DEFAULTS[quantity ?? 'number'];
  const base = 'as' in given ? given : given[system];
  return show === undefined ? base : form(inUnit(base, show, quantity), show, quantity);
}

/** The usual style in the unit that a cell asks for; a unit of another quantity is passed over. */
function inUnit(base: Style, show: Show, quantity: Quantity | undefined): Style {
  if (quantity === undefined || show.unit === undefined) return base;
  const unit = unitOf(quantity, show.unit)?.sign;
  if (unit === undefined) return base;
  if (unit === 'in') return { ...SIXTEENTHS, unit };
  const decimals = UNIT_DECIMALS[unit] ?? base.decimals ?? SOME_DECIMALS;
  return { as: 'decimal', unit, decimals, grouped: base.grouped === true };
}

/** The style as a cell's `as`, `denominator` and `decimals` have it. */
function form(base: Style, show: Show, quantity: Quantity | undefined): Style {
  const { as, denominator, decimals } = show;
  const fractional = denominator === undefined ? {} : { denominator, exactTo: denominator };
  // Feet and inches can be told of lengths only.
  if (as === 'feet-inches' && quantity === 'length') return { ...SIXTEENTHS, ...fractional, as };
  if (as === 'fraction' && base.as !== 'money' && base.as !== 'date') {
    const usual = quantity === 'length' ? SIXTEENTHS : { as };
    return { ...usual, ...fractional, ...sameUnit(base) };
  }
  if (as === 'plain') return { as, ...sameUnit(base) };
  if (decimals !== undefined) {
    const money = base.as === 'money' && as === undefined;
    return { ...exactly(base), as: money ? 'money' : 'decimal', decimals, fixed: true };
  }
  if (as === 'decimal') return { ...exactly(base), as, decimals: decimalsOf(base) };
  if (base.as !== 'fraction' || denominator === undefined) return base;
  return { ...exactly(base), ...fractional };
}

/** The style as it is asked for, whatever the size of the number. */
const exactly = ({
  decimalsUnder: _decimals,
  halfStepsUnder: _half,
  stretches: _stretches,
  ...style
}: Style): Style => style;

const sameUnit = ({ unit }: Style): { unit?: string } => (unit === undefined ? {} : { unit });

const decimalsOf = ({ decimals, unit }: Style): number =>
  decimals ?? UNIT_DECIMALS[unit ?? ''] ?? SOME_DECIMALS;

/**
 * The unit that a cell's numbers are shown in, and that a bare number typed into it is in;
 * `undefined` where numbers of the quantity have no unit.
 */
export function shownUnit(context: ShowContext, style = styleOf(context)): Unit | undefined {
  const { quantity, system } = context;
  if (quantity === undefined) return undefined;
  // Fractions are of inches, also in a metric workbook, unless another unit is asked for.
  if (style.as === 'feet-inches') return unitOf('length', 'in');
  if (style.unit !== undefined) return unitOf(quantity, style.unit);
  if (style.as === 'fraction' && quantity === 'length') return unitOf('length', 'in');
  return ownUnit(quantity, system);
}
